import { Hono } from "hono";
import { ChemistryPage } from "../../views/chemistry/page.tsx";
import { Preview } from "../../views/recipes/preview.tsx";
import { faultsOfRequest, workOut } from "../chem/chemistry.ts";
import { listMaterialNames } from "../db/materials.ts";
import { page, wantsJson } from "../wire/answers.tsx";
import { check, readSent } from "../wire/body.ts";
import { chemistryBody } from "../wire/chemistry-body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty } from "../wire/problems.tsx";
import { changeWorksheet } from "../wire/worksheet-changes.ts";
import { formLines, typedText } from "../wire/worksheet-form.ts";
import { conventionsOf, countedByOf, usualAddress } from "./conventions.ts";
import { previewOf } from "./previews.ts";
import { resolveLines } from "./sent-lines.ts";

export const chemistry = new Hono<Env>();

const here = { title: "Work it out", here: "work-it-out" } as const;

chemistry.get(
  "/",
  described({ says: "Work out the chemistry of lines, nothing stored" }),
  readerRequired,
  (c) => {
    const { unity, iron, boron } = c.req.query();
    return worksheet(c, { unity, iron, boron });
  },
);

chemistry.post(
  "/",
  described({
    says: "The chemistry of a batch: unity formula, percents, loss, ratios, findings, each with ±",
    body: chemistryBody,
  }),
  readerRequired,
  async (c) => {
    const sent = await readSent(c);
    if (sent.kind === "refused") return faulty(c, { status: sent.status, faults: sent.faults });
    if (!wantsJson(c)) return worksheet(c, sent.value);

    const read = check(chemistryBody, sent.value);
    if (read.kind === "refused") return faulty(c, read);
    const { lines, faults } = await resolveLines(c.var.db, read.value.lines);
    const request = { ...read.value, lines, today: dayOf(c.var.now) };
    const all = [...faults, ...(faults.length > 0 ? [] : faultsOfRequest(request))];
    return all.length > 0 ? faulty(c, { faults: all }) : c.json(workOut(request));
  },
);

/** The page, or only what the lines come to where a form on another page asks for that. */
async function worksheet(c: Ctx, typed: unknown) {
  const { db } = c.var;
  const revision = typedLines(typed);
  const change = typedText(typed, "change");
  const changed = changeWorksheet(change, formLines(revision), typedText(typed, "pasted"));
  const conventions = conventionsOf(c, typed);
  const counted = { by: countedByOf(c, typed), usual: usualAddress(c) };
  const preview = await previewOf(db, changed.lines, {
    conventions,
    change,
    today: dayOf(c.var.now),
  });
  if (c.req.header("HX-Request-Type") === "partial") return page(c, here, () => Preview(preview));
  const materialNames = await listMaterialNames(db);
  return page(c, here, () =>
    ChemistryPage({ ...changed, preview, materialNames, conventions, counted }),
  );
}

/** The lines of this page's own form, or of a recipe's, where they are part of its revision. */
function typedLines(typed: unknown): unknown {
  const form = typed as { lines?: unknown; revision?: { lines?: unknown } };
  return form.lines ?? form.revision?.lines;
}

const dayOf = (moment: Date): string => moment.toISOString().slice(0, 10);
