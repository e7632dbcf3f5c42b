import { Decimal } from "decimal.js";
import { shareOut } from "./shares.ts";

/** A recipe is a base, and additions weighed on top of it; both in one measure, parts by weight. */
export type Part = "base" | "addition";

export type WeighedLine = { readonly part: Part; readonly amount: Decimal };

const total = (lines: readonly WeighedLine[], part: Part): Decimal =>
  lines.reduce((sum, line) => (line.part === part ? sum.plus(line.amount) : sum), new Decimal(0));

/** Parts by weight of the whole base. */
export const baseTotal = (lines: readonly WeighedLine[]): Decimal => total(lines, "base");

/** Parts by weight of all additions. */
export const additionsTotal = (lines: readonly WeighedLine[]): Decimal => total(lines, "addition");

/**
 * A line's amount in percent of the base, as additions are spoken of; null where the base totals 0.
 * Worked number: 3 parts of red iron oxide on a base of 150 is 2 %.
 */
export function percentOfBase(line: WeighedLine, lines: readonly WeighedLine[]): Decimal | null {
  const base = baseTotal(lines);
  return base.isZero() ? null : line.amount.times(100).div(base);
}

/** Whether the base counts as 100: within 0.05 either way. Where not, pages show both columns. */
export const baseIs100 = (lines: readonly WeighedLine[]): boolean =>
  baseTotal(lines).minus(100).abs().lte("0.05");

/** How far, in parts of itself, rounding may move a line before another decimal is taken. */
const mostMoved = new Decimal("0.005");

/**
 * The same recipe with a base of exactly 100; additions are scaled with it. Amounts get two
 * decimals, or three where two would move a line by more than half a percent of itself; base
 * lines are rounded by largest remainder so that they still add up to 100.
 *
 * @returns new lines in the same order, or null where the base totals 0.
 *
 * Worked number: 41, 20 and 20 with an addition of 2 becomes 50.62, 24.69 and 24.69 with 2.47.
 */
export function bringBaseTo100<Line extends WeighedLine>(lines: readonly Line[]): Line[] | null {
  const base = baseTotal(lines);
  if (base.isZero()) return null;
  const decimals = movesTooFar(lines, base, 2) ? 3 : 2;
  const step = new Decimal(10).pow(-decimals);
  const baseLines = lines.filter((line) => line.part === "base");
  const shares = shareOut(
    baseLines.map((line) => line.amount),
    new Decimal(100).div(step),
  );
  let next = 0;
  return lines.map((line) => {
    const share = line.part === "base" ? shares[next++] : undefined;
    const amount = share
      ? share.times(step)
      : line.amount.times(100).div(base).toDecimalPlaces(decimals, Decimal.ROUND_HALF_UP);
    return { ...line, amount };
  });
}

function movesTooFar(lines: readonly WeighedLine[], base: Decimal, decimals: number): boolean {
  return lines.some(({ amount }) => {
    const exact = amount.times(100).div(base);
    const moved = exact.toDecimalPlaces(decimals).minus(exact).abs();
    return moved.gt(exact.times(mostMoved));
  });
}
