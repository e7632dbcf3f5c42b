import { Decimal } from "decimal.js";
import { baseTotal, type WeighedLine } from "./lines.ts";

/** A scale's step in grams, and how far off a weight may be, in percent of itself. */
export type Weighing = { scaleGrams: Decimal; errorPercent: Decimal };

/**
 * The least that a scale weighs within the error: rounding moves a base line by less than a step
 * (largest remainder), and an addition by half of one at most.
 * Worked number: on 0.1 g with 2 % an addition is 2.5 g or more, a base line 5 g.
 */
export const leastWeighed = (
  part: WeighedLine["part"],
  { scaleGrams, errorPercent }: Weighing,
): Decimal => (part === "base" ? scaleGrams : scaleGrams.div(2)).times(100).div(errorPercent);

/**
 * The smallest base, in whole steps of the scale, of which every line is weighed within the error;
 * null where there is nothing to weigh. Lines are in parts, the base of any total above 0.
 *
 * Worked number: 0.5 on a base of 100 is 2.5 g from a base of 500 g on.
 */
export function smallestBatch(lines: readonly WeighedLine[], weighing: Weighing): Decimal | null {
  const base = baseTotal(lines);
  const there = lines.filter(({ amount }) => amount.gt(0));
  if (there.length === 0 || base.isZero()) return null;
  const needs = there.map(({ part, amount }) =>
    leastWeighed(part, weighing).times(base).div(amount),
  );
  return Decimal.max(...needs)
    .div(weighing.scaleGrams)
    .ceil()
    .times(weighing.scaleGrams);
}
