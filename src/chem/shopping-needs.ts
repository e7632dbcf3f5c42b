import { Decimal } from "decimal.js";
import { batchSheet } from "./batch.ts";
import type { WeighedLine } from "./lines.ts";

/** Grams of each powder by its slug. */
export type Needs = ReadonlyMap<string, Decimal>;

/** The finest step that a weight is kept in. */
const finest = new Decimal("0.0001");

/**
 * What a batch takes of each powder, in whole steps of the scale as its sheet has them; in tenths of
 * a milligram where the base is no multiple of the step.
 *
 * Worked number: 1000 g of 40 feldspar and 60 quartz with 2 iron oxide on top are 400, 600 and 20 g.
 */
export function needsOfBatch(
  lines: readonly (WeighedLine & { slug: string })[],
  { grams, scaleGrams }: { grams: Decimal; scaleGrams: Decimal },
): Needs {
  const step = grams.mod(scaleGrams).isZero() ? scaleGrams : finest;
  const sheet = batchSheet({ lines, grams, scaleGrams: step });
  if (sheet.kind === "refused") throw new Error("a published recipe can be weighed");
  return sumOfNeeds(sheet.lines.map(({ line, grams }) => new Map([[line.slug, grams]])));
}

/** What several of them take together. */
export function sumOfNeeds(all: readonly Needs[]): Needs {
  const sum = new Map<string, Decimal>();
  for (const needs of all)
    for (const [slug, grams] of needs) sum.set(slug, grams.plus(sum.get(slug) ?? 0));
  return sum;
}

export type NeedRow = { slug: string; needed: Decimal; there: Decimal; missing: Decimal };

/** What is needed of each powder, what of it is there, and what is missing, by slug. */
export function needRows(all: readonly Needs[], usable: Needs): NeedRow[] {
  return [...sumOfNeeds(all)]
    .filter(([, needed]) => needed.gt(0))
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([slug, needed]) => {
      const there = Decimal.max(0, usable.get(slug) ?? 0);
      return { slug, needed, there, missing: Decimal.max(0, needed.minus(there)) };
    });
}
