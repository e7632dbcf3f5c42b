import { Hono } from "hono";
import { z } from "zod";
import { DiscontinuationForm } from "../../views/materials/discontinuation-form.tsx";
import { discontinue, endDiscontinuation } from "../db/discontinuations.ts";
import { findMaterialSheet, type MaterialSheet } from "../db/material-sheets.ts";
import { pastDay } from "../wire/analysis-body.ts";
import { answer, changed } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { materialJson } from "./material-json.ts";

export const discontinuations = new Hono<Env>();

const discontinuationBody = z.strictObject({ since: pastDay, why: text(1000), idempotencyKey });
const endBody = z.strictObject({ why: text(1000), idempotencyKey });
const path = "/:slug/discontinuation";

discontinuations.get(
  path,
  described({ says: "Whether a material is still sold, and the recipes that depend on it" }),
  managerRequired,
  async (c) => {
    const sheet = await findSheet(c);
    if (!sheet) return notFound(c);
    const { stillSold, discontinued, usedIn } = materialJson(sheet);
    return answer(c, { json: () => ({ stillSold, discontinued, usedIn }), ...form(sheet, {}, []) });
  },
);

const put = async (c: Ctx) => {
  const sheet = await findSheet(c);
  if (!sheet) return notFound(c);
  const read = await readBody(c, discontinuationBody);
  if (read.kind === "refused") return faulty(c, read, form(sheet, read.typed, read.faults));
  const { since, why } = read.value;
  await discontinue(c.var.db, { materialId: sheet.id, since, why, ...actOf(c) });
  return told(c);
};

const end = async (c: Ctx) => {
  const sheet = await findSheet(c);
  if (!sheet) return notFound(c);
  const read = await readBody(c, endBody);
  if (read.kind === "refused") return faulty(c, read, form(sheet, read.typed, read.faults));
  const { why } = read.value;
  const ended = await endDiscontinuation(c.var.db, { materialId: sheet.id, why, ...actOf(c) });
  switch (ended.kind) {
    case "still-sold": {
      const detail = `${sheet.name} counts as sold already. Perhaps somebody was first.`;
      const faults = [{ path: "", says: detail }];
      const problem = { status: 409, title: "Still sold", detail } as const;
      return refuse(c, problem, form(sheet, read.typed, faults));
    }
    case "sold-again":
      return told(c);
  }
};

const discontinued = { says: "Say that a material is no longer sold", body: discontinuationBody };
const soldAgain = { says: "Say that a material is sold again", body: endBody };
discontinuations.put(path, described(discontinued), managerRequired, put);
discontinuations.post(path, described(discontinued), managerRequired, put);
discontinuations.delete(path, described(soldAgain), managerRequired, end);
discontinuations.post(`${path}/end`, described(soldAgain), managerRequired, end);

const findSheet = (c: Ctx) =>
  findMaterialSheet(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

/** The material as it stands now, with what the change breaks or mends. */
async function told(c: Ctx) {
  const sheet = await findSheet(c);
  return sheet ? changed(c, `/materials/${sheet.slug}`, materialJson(sheet)) : notFound(c);
}

const form = (sheet: MaterialSheet, typed: Typed, faults: readonly Fault[]) => ({
  page: { title: `${sheet.name}: is it still sold?`, here: "shelf" } as const,
  view: () => (
    <DiscontinuationForm
      material={sheet}
      discontinued={sheet.discontinued}
      uses={sheet.uses}
      typed={(at) => typedText(typed, at)}
      faults={faults}
    />
  ),
});
