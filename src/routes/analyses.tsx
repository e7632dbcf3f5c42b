import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { AnalysisPage } from "../../views/materials/analysis.tsx";
import { AnalysisForm } from "../../views/materials/analysis-form.tsx";
import { addAnalysis } from "../db/analyses.ts";
import { findMaterialSheet } from "../db/material-sheets.ts";
import { findMaterial } from "../db/materials.ts";
import { analysisBody } from "../wire/analysis-body.ts";
import { answer, created, page, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { analysisJson } from "./material-json.ts";
import { isManager } from "./materials.tsx";

export const analyses = new Hono<Env>();

analyses.get(
  "/:slug/analyses",
  described({ says: "The analyses of a material, newest first; people find them on its page" }),
  readerRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const sheet = await findMaterialSheet(db, { slug: c.req.param("slug"), reader });
    if (!sheet) return notFound(c);
    if (!wantsJson(c)) return c.redirect(`/materials/${sheet.slug}`, 302);
    return c.json({ items: sheet.analyses.map(analysisJson), next: null });
  },
);

analyses.get(
  "/:slug/analyses/new",
  described({ says: "The form for a further analysis of a material" }),
  memberRequired,
  async (c) => {
    const material = await findMaterial(c.var.db, c.req.param("slug"));
    if (!material) return notFound(c);
    const { page: where, view } = form(c, material, {}, []);
    return page(c, where, view);
  },
);

analyses.post(
  "/:slug/analyses",
  described({
    says: "Add an analysis; a manager's is in use at once unless inUse is false, a member's waits",
    body: analysisBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db } = c.var;
    const slug = c.req.param("slug");
    const material = await findMaterial(db, slug);
    if (!material) return notFound(c);
    const read = await readBody(c, analysisBody);
    if (read.kind === "refused") return faulty(c, read, form(c, material, read.typed, read.faults));

    const { given, inUse = true } = read.value;
    const added = await addAnalysis(db, {
      materialId: material.id,
      given,
      inUse: inUse && isManager(c),
      ...actOf(c),
    });
    const row = await findOne(c, slug, added.id);
    const location = `/materials/${slug}/analyses/${added.id}`;
    return created(c, location, row && analysisJson(row.analysis));
  },
);

analyses.get(
  "/:slug/analyses/:id",
  described({ says: "One analysis of a material, and whether it is in use" }),
  readerRequired,
  async (c) => {
    const found = await findOne(c, c.req.param("slug"), c.req.param("id"));
    if (!found) return notFound(c);
    const { sheet, analysis } = found;
    return answer(c, {
      json: () => analysisJson(analysis),
      page: { title: `An analysis of ${sheet.name}`, here: "shelf" },
      view: () => <AnalysisPage material={sheet} row={analysis} mayManage={isManager(c)} />,
    });
  },
);

async function findOne(c: Ctx, slug: string, id: string) {
  const sheet = await findMaterialSheet(c.var.db, { slug, reader: c.var.viewer });
  const analysis = sheet?.analyses.find((row) => row.id === id);
  return sheet && analysis && { sheet, analysis };
}

const form = (
  c: Ctx,
  material: { slug: string; name: string },
  typed: Typed,
  faults: readonly Fault[],
) => ({
  page: { title: `Add an analysis of ${material.name}`, here: "shelf" } as const,
  view: () => (
    <AnalysisForm
      material={material}
      mayManage={isManager(c)}
      typed={(path) => typedText(typed, path)}
      faults={faults}
      idempotencyKey={uuidv7()}
    />
  ),
});
