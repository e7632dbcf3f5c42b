import { Hono } from "hono";
import { z } from "zod";
import { InUseForm } from "../../views/materials/in-use-form.tsx";
import { putInUse } from "../db/analyses-in-use.ts";
import { listApprovalsEnded } from "../db/approvals-ended.ts";
import { findMaterialSheet, type MaterialSheet } from "../db/material-sheets.ts";
import { listUsesPinnedElsewhere } from "../db/material-uses.ts";
import { changed, page, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { materialJson } from "./material-json.ts";

export const analysesInUse = new Hono<Env>();

const inUseBody = z.strictObject({
  analysis: z.uuid({ error: "The id of an analysis of this material." }),
  why: text(1000),
  idempotencyKey,
});

const asked = z.object({ analysis: z.string().optional() });
const path = "/:slug/analysis-in-use";

analysesInUse.get(
  path,
  described({
    says: "The form to put an analysis in use; as JSON the recipes that are pinned to another one, and the approvals that it would end",
    query: asked,
  }),
  managerRequired,
  async (c) => {
    const sheet = await findSheet(c);
    if (!sheet) return notFound(c);
    const { page: where, view, elsewhere, ended } = await form(c, sheet, { ...c.req.query() }, []);
    if (wantsJson(c)) {
      const { recipes: pinnedElsewhere, more } = elsewhere;
      return c.json({ pinnedElsewhere, more, approvalsEnded: ended });
    }
    return page(c, where, view);
  },
);

const put = async (c: Ctx) => {
  const { db } = c.var;
  const sheet = await findSheet(c);
  if (!sheet) return notFound(c);
  const read = await readBody(c, inUseBody);
  if (read.kind === "refused")
    return faulty(c, read, await form(c, sheet, read.typed, read.faults));

  const { analysis: analysisId, why } = read.value;
  const done = await putInUse(db, { materialId: sheet.id, analysisId, why, ...actOf(c) });
  switch (done.kind) {
    case "no-analysis": {
      const faults = [{ path: "analysis", says: `${sheet.name} has no such analysis.` }];
      return faulty(c, { faults }, await form(c, sheet, read.typed, faults));
    }
    case "taken-back": {
      const says =
        "This analysis came with an import that was taken back: it stays on record, and is not put in use. Add the analysis anew if it is right.";
      const faults = [{ path: "analysis", says }];
      return faulty(c, { faults }, await form(c, sheet, read.typed, faults));
    }
    case "in-use-already":
    case "put-in-use": {
      const now = await findSheet(c);
      return changed(c, `/materials/${sheet.slug}`, now && materialJson(now));
    }
  }
};

const says = "Have new revisions pin this analysis; published ones keep theirs";
analysesInUse.put(path, described({ says, body: inUseBody }), managerRequired, put);
analysesInUse.post(path, described({ says, body: inUseBody }), managerRequired, put);

const findSheet = (c: Ctx) =>
  findMaterialSheet(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

/** The form, beginning with the newest analysis that is not in use where none was chosen. */
async function form(c: Ctx, sheet: MaterialSheet, typed: Typed, faults: readonly Fault[]) {
  const others = sheet.analyses.filter(({ is }) => is !== "in use");
  const chosen = others.find(({ id }) => id === typed.analysis) ?? others[0];
  const elsewhere = chosen
    ? await listUsesPinnedElsewhere(c.var.db, {
        materialId: sheet.id,
        analysisId: chosen.id,
        reader: c.var.viewer,
        limit: 100,
      })
    : { recipes: [], more: false };
  const ended = chosen
    ? await listApprovalsEnded(c.var.db, {
        supposed: { materialId: sheet.id, analysis: chosen },
        now: c.var.now,
      })
    : [];
  return {
    elsewhere,
    ended,
    page: { title: `Put an analysis of ${sheet.name} in use`, here: "shelf" } as const,
    view: () => (
      <InUseForm
        material={sheet}
        chosen={chosen}
        others={others.filter(({ id }) => id !== chosen?.id)}
        elsewhere={elsewhere}
        ended={ended}
        typed={(at) => typedText(typed, at)}
        faults={faults}
      />
    ),
  };
}
