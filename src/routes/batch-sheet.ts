import { Decimal } from "decimal.js";
import { Hono } from "hono";
import { BatchSheetPage } from "../../views/recipes/batch-sheet.tsx";
import { inUnit, type WeightUnit } from "../chem/batch-amounts.ts";
import type { SlurriedLine } from "../chem/blend-slurries.ts";
import { type WeighedBatch, weighedBatch } from "../chem/weighed-batch.ts";
import { linesToWeigh } from "../chem/weighing-order.ts";
import { findDirections } from "../db/bucket-directions.ts";
import { listStockOf } from "../db/bucket-stock.ts";
import { withDryGravities } from "../db/material-gravities.ts";
import { findRecipe } from "../db/recipes.ts";
import { type FoundLine, type FoundRevision, findRevision } from "../db/revisions.ts";
import { findStandings } from "../db/standings.ts";
import { answer, wantsJson } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { whole } from "../wire/fields.ts";
import { readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { batchQuery, orderedBatch } from "./batch-order.ts";

export const batchSheets = new Hono<Env>();

const asked = batchQuery.extend({ revision: whole(1, 1_000_000).optional() });

batchSheets.get(
  "/:slug/batch",
  described({
    says: "A recipe's sheet to weigh from: by weight, by the bucket, or to use up a powder",
    query: asked,
  }),
  readerRequired,
  async (c) => {
    const { db, viewer: reader, now, studio } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader });
    if (!recipe) return notFound(c);
    const query = c.req.query();
    const filled = Object.fromEntries(Object.entries(query).filter(([, value]) => value !== ""));
    const read = check(asked, filled);
    const number = (read.kind === "read" && read.value.revision) || recipe.head;
    const revision = await findRevision(db, { recipeId: recipe.id, number });
    if (!revision) return notFound(c);
    const standing = (await findStandings(db, { revisionIds: [revision.id], now })).get(
      revision.id,
    );
    if (!standing) throw new Error("every revision has a standing");
    const page = { title: `To weigh: ${recipe.name}`, here: "library" } as const;
    const typed: Record<string, string> = { scaleGrams: studio.scaleGrams.toFixed(), ...query };
    const shown = { recipe, revision, standing, typed };
    const again = (faults: readonly Fault[]) => ({
      page,
      view: () => BatchSheetPage({ ...shown, faults, sheet: undefined }),
    });
    if (read.kind === "refused") return faulty(c, read, again(read.faults));

    const lines = await withDryGravities(db, revision.lines, ({ material }) => material.id);
    const ordered = orderedBatch(lines, read.value, {
      studioScale: studio.scaleGrams,
      ownUnit: wantsJson(c) ? "g" : c.var.reading.weight,
    });
    if (ordered.kind === "faulty") return faulty(c, ordered, again(ordered.faults));
    const { order, unit, usesUp } = ordered;
    const batch = weighedBatch(lines, order);
    if (batch.kind === "refused") {
      const faults = batch.faults.map(asTyped);
      return faulty(c, { faults }, again(faults));
    }
    const sheet = { ...sheetOf(batch), unit, usesUp };
    const directions =
      reader && !wantsJson(c) ? await directionsOf(c, recipe.id, revision) : undefined;
    return answer(c, {
      json: () => ({ recipe: recipe.slug, revision: revision.number, ...sheetJson(sheet) }),
      page,
      view: () => BatchSheetPage({ ...shown, faults: [], sheet, directions }),
    });
  },
);

type Line = FoundLine & SlurriedLine;

/** What the studio's bucket of this revision says of sieving, stirring and keeping. */
async function directionsOf(c: Ctx, recipeId: string, { number }: FoundRevision) {
  const { db, now } = c.var;
  const stock = await listStockOf(db, { recipeId, now });
  const ids = stock.filter(({ bucket }) => bucket.number === number).map(({ bucket }) => bucket.id);
  const directions = await findDirections(db, ids);
  return ids.map((id) => directions.get(id)).find((said) => said !== undefined);
}

/** In weighing order, with what the bucket holds after each in that order. */
function sheetOf(batch: Extract<WeighedBatch<Line>, { kind: "sheet" }>) {
  const { baseGrams, totalGrams, scaleGrams, coarse, filled } = batch;
  const weighed = batch.lines.map(({ line: { part, material, amount }, grams }, at) => {
    const tooCoarse = coarse.find(({ line }) => line === at);
    return { part, material, amount, grams, coarse: tooCoarse };
  });
  let runningGrams = new Decimal(0);
  const lines = linesToWeigh(weighed).map((line) => {
    runningGrams = runningGrams.plus(line.grams);
    return { ...line, runningGrams };
  });
  return { lines, baseGrams, totalGrams, scaleGrams, filled };
}

type Sheet = ReturnType<typeof sheetOf> & { unit: WeightUnit; usesUp: string | undefined };

const sheetJson = ({ lines, baseGrams, totalGrams, scaleGrams, filled, unit }: Sheet) => ({
  lines: lines.map(({ part, material, grams, runningGrams, coarse }) => ({
    material: material.slug,
    part,
    grams: grams.toFixed(),
    runningGrams: runningGrams.toFixed(),
    ...(unit !== "g" && { [unit]: inUnit(grams, unit).toFixed() }),
    ...(coarse && {
      coarse: {
        percent: coarse.percent.toNumber(),
        smallestGrams: coarse.smallestGrams.toFixed(),
      },
    }),
  })),
  baseGrams: baseGrams.toFixed(),
  totalGrams: totalGrams.toFixed(),
  scaleGrams: scaleGrams.toFixed(),
  ...(filled && { waterGrams: filled.waterGrams.toFixed(), says: filled.says }),
});

const fields: Readonly<Record<string, string>> = {
  grams: "amount",
  "fill.litres": "litres",
  "fill.specificGravity": "gravity",
};

/** A fault of the computing, at the field of this page that it comes from. */
const asTyped = ({ path, says }: Fault): Fault => ({ path: fields[path] ?? path, says });
