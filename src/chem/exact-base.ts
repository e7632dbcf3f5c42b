import { Decimal } from "decimal.js";
import type { WeighedLine } from "./lines.ts";
import { nearestShare, shareOut } from "./shares.ts";

/**
 * The lines of a base of 100 with fewer decimals, the base still adding up to 100 by largest
 * remainder. What becomes 0 by that is left out.
 *
 * Worked number: three lines of 33.333333333 with two decimals are 33.34, 33.33 and 33.33.
 */
export function bringBaseTo<Line extends WeighedLine>(
  lines: readonly Line[],
  decimals: number,
): Line[] {
  const step = new Decimal(10).pow(-decimals);
  const steps = new Decimal(100).div(step);
  const base = lines.filter(({ part }) => part === "base");
  const shares = shareOut(
    base.map(({ amount }) => amount),
    steps,
  );
  let next = 0;
  return lines
    .map((line) => {
      const share =
        line.part === "base"
          ? (shares[next++] ?? new Decimal(0))
          : nearestShare(line.amount, new Decimal(100), steps);
      return { ...line, amount: share.times(step) };
    })
    .filter(({ amount }) => !amount.isZero());
}
