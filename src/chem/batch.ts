import { Decimal } from "decimal.js";
import type { Fault } from "./analysis.ts";
import { baseTotal, type WeighedLine } from "./lines.ts";
import { nearestShare, shareOut } from "./shares.ts";

/**
 * A line of a batch sheet: what to weigh of it, and what the bucket holds once it is in, both in
 * grams and whole steps of the scale.
 */
export type SheetLine<Line> = { line: Line; grams: Decimal; runningGrams: Decimal };

/**
 * A line that the scale is too coarse for: it becomes 0, or moves by more than 2 % of itself.
 * `line` is its index, `percent` how far it moves, `smallestGrams` the smallest base, a multiple of
 * the step, from which rounding can no longer move it that far.
 */
export type Coarse = { line: number; percent: Decimal; smallestGrams: Decimal };

export type BatchSheet<Line> =
  | {
      kind: "sheet";
      lines: SheetLine<Line>[];
      baseGrams: Decimal;
      totalGrams: Decimal;
      scaleGrams: Decimal;
      coarse: Coarse[];
    }
  | { kind: "refused"; faults: Fault[] };

const Exact = Decimal.clone({ precision: 80 });

/** How far rounding may move a line, in percent of itself. */
const mostMoved = 2;

/**
 * What to weigh for a base of `grams` on a scale that shows steps of `scaleGrams`, additions on
 * top. Base lines are rounded by largest remainder, ties to the earlier line, so that they add up
 * to `grams`; each addition goes to its nearest step, halves up; the total is the sum of what is
 * printed. Lines keep their order.
 *
 * @param grams a multiple of `scaleGrams`, above 0 and at most 1000000.
 * @returns `refused` with the path of each fault: `grams`, `scaleGrams`, `lines`, `lines.0.amount`.
 *
 * Worked number: a base of 1, 1 and 1 with an addition of 0.05, for 100 g on a 1 g scale, is 34, 33
 * and 33 g, with 2 g (1.67 rounded) on top, 102 g in all.
 */
export function batchSheet<Line extends WeighedLine>(order: {
  lines: readonly Line[];
  grams: Decimal;
  scaleGrams: Decimal;
}): BatchSheet<Line> {
  const { lines, grams, scaleGrams } = order;
  const faults = faultsOfOrder(order);
  if (faults.length > 0) return { kind: "refused", faults };
  const base = baseTotal(lines);
  const steps = grams.divToInt(scaleGrams);
  const baseLines = lines.filter(({ part }) => part === "base");
  const shares = shareOut(
    baseLines.map(({ amount }) => amount),
    steps,
  );
  let next = 0;
  let runningGrams = new Decimal(0);
  const sheet = lines.map((line) => {
    const share = line.part === "base" ? shares[next++] : undefined;
    const weighed = (share ?? nearestShare(line.amount, base, steps)).times(scaleGrams);
    runningGrams = runningGrams.plus(weighed);
    return { line, grams: weighed, runningGrams };
  });
  return {
    kind: "sheet",
    lines: sheet,
    baseGrams: grams,
    totalGrams: runningGrams,
    scaleGrams,
    coarse: sheet.flatMap(({ line, grams: weighed }, index) =>
      coarseLine({ line, index, weighed, base, grams, scaleGrams }),
    ),
  };
}

function coarseLine(weighing: {
  line: WeighedLine;
  index: number;
  weighed: Decimal;
  base: Decimal;
  grams: Decimal;
  scaleGrams: Decimal;
}): Coarse[] {
  const { line, index, weighed, base, grams, scaleGrams } = weighing;
  if (line.amount.isZero()) return [];
  // Both sides times the base, so that a third is not off by its last digit: 34 for 33⅓ is 2 %.
  const exact = new Exact(line.amount).times(grams);
  const moved = new Exact(weighed).times(base).minus(exact).abs().times(100);
  if (!weighed.isZero() && moved.lte(exact.times(mostMoved))) return [];
  const percent = new Decimal(moved.div(exact));
  // Largest remainder moves a base line by less than a step, nearest rounding by half of one.
  const furthest = line.part === "base" ? scaleGrams : scaleGrams.div(2);
  const smallestLine = furthest.times(100).div(mostMoved);
  const smallest = smallestLine.times(base).div(line.amount);
  const smallestGrams = smallest.div(scaleGrams).ceil().times(scaleGrams);
  return [{ line: index, percent, smallestGrams }];
}

function faultsOfOrder(order: {
  lines: readonly WeighedLine[];
  grams: Decimal;
  scaleGrams: Decimal;
}): Fault[] {
  const { lines, grams, scaleGrams } = order;
  const faults: Fault[] = lines.flatMap(({ amount }, index) =>
    amount.gte(0) && amount.lte(1_000_000)
      ? []
      : [{ path: `lines.${index}.amount`, says: "An amount is a number from 0 to 1000000." }],
  );
  if (faults.length === 0 && baseTotal(lines).isZero()) {
    faults.push({ path: "lines", says: "The base totals 0. Give a base line an amount." });
  }
  const scaleFits = scaleGrams.gt(0) && scaleGrams.lte(1000);
  if (!scaleFits) {
    faults.push({ path: "scaleGrams", says: "A scale's step is more than 0 and at most 1000 g." });
  }
  if (!(grams.gt(0) && grams.lte(1_000_000))) {
    faults.push({ path: "grams", says: "A batch weighs more than 0 and at most 1000000 g." });
  } else if (scaleFits && !grams.mod(scaleGrams).isZero()) {
    faults.push({
      path: "grams",
      says: `The scale shows steps of ${scaleGrams} g: give a weight that is a multiple of it.`,
    });
  }
  return faults;
}
