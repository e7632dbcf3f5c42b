import type { Decimal } from "decimal.js";
import { baseTotal, type WeighedLine } from "./lines.ts";

/**
 * Additions on a base of 100: each keeps its percent of the base it was weighed on, eight decimals.
 * Worked number: 4 parts on a base of 80 are 5.
 */
export function additionsOn100<Line extends WeighedLine>(
  additions: readonly Line[],
  base: readonly WeighedLine[],
): (Line & { amount: Decimal })[] {
  const total = baseTotal(base);
  return additions.map((line) => ({
    ...line,
    amount: total.isZero() ? line.amount : line.amount.times(100).div(total).toDecimalPlaces(8),
  }));
}
