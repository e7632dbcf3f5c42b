import type { Decimal } from "decimal.js";
import { asc, eq } from "drizzle-orm";
import { batchSheet } from "../chem/batch.ts";
import { linesToWeigh } from "../chem/weighing-order.ts";
import type { Db } from "./client.ts";
import type { FoundMix } from "./mixes.ts";
import { revisionLines } from "./schema/index.ts";

export type CoarseLine = { percent: Decimal; smallestGrams: Decimal };

/** Lines of a mix that its scale is too coarse for: the line's number → how far off, and from what base on not. */
export async function findCoarse(
  db: Db,
  { revisionId, baseGrams, scaleGrams, lines: weighedLines }: FoundMix,
): Promise<Map<number, CoarseLine>> {
  // A line is moved by less than a step, which is under 2 % of itself from 51 steps on.
  const fineFrom = scaleGrams.times(51);
  if (weighedLines.every(({ grams }) => grams.gte(fineFrom))) return new Map();
  const lines = await db
    .select({ part: revisionLines.part, amount: revisionLines.amount })
    .from(revisionLines)
    .where(eq(revisionLines.revisionId, revisionId))
    .orderBy(asc(revisionLines.position));
  const sheet = batchSheet({ lines, grams: baseGrams, scaleGrams });
  if (sheet.kind === "refused" || sheet.coarse.length === 0) return new Map();
  const coarse = new Map(sheet.coarse.map((each) => [each.line, each]));
  const weighed = linesToWeigh(
    sheet.lines.map(({ line: { part }, grams }, place) => ({ part, grams, place })),
  );
  return new Map(
    weighed.flatMap(({ place }, at) => {
      const found = coarse.get(place);
      return found
        ? [[at + 1, { percent: found.percent, smallestGrams: found.smallestGrams }]]
        : [];
    }),
  );
}
