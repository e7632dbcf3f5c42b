import { Decimal } from "decimal.js";

/** Enough digits to compare remainders of 20-digit amounts exactly. */
const Exact = Decimal.clone({ precision: 80 });

/**
 * Whole steps shared out in proportion to amounts, adding up to `steps` exactly: each gets the
 * whole part of its share, and what is left goes one by one to the largest remainders, ties to
 * the earlier line.
 *
 * @param amounts ≥ 0, at least one above 0. @param steps a whole number ≥ 0.
 *
 * Worked number: 1, 1 and 1 into 100 steps are 34, 33 and 33.
 */
export function shareOut(amounts: readonly Decimal[], steps: Decimal): Decimal[] {
  const total = amounts.reduce((sum, amount) => sum.plus(amount), new Exact(0));
  const shares = amounts.map((amount) => {
    const scaled = new Exact(amount).times(steps);
    const whole = scaled.divToInt(total);
    return { whole, remainder: scaled.minus(whole.times(total)) };
  });
  const given = shares.reduce((sum, share) => sum.plus(share.whole), new Exact(0));
  const left = new Exact(steps).minus(given).toNumber();
  const luckiest = shares
    .map((share, index) => ({ index, remainder: share.remainder }))
    .sort((a, b) => b.remainder.comparedTo(a.remainder) || a.index - b.index)
    .slice(0, left)
    .map(({ index }) => index);
  const lucky = new Set(luckiest);
  return shares.map(({ whole }, index) => new Decimal(lucky.has(index) ? whole.plus(1) : whole));
}

/**
 * `amount × steps / total` to the nearest whole step, halves up, without rounding on the way.
 * Worked number: 1 of 4 into 10 steps is 2.5, hence 3.
 */
export function nearestShare(amount: Decimal, total: Decimal, steps: Decimal): Decimal {
  const twice = new Exact(amount).times(steps).times(2).plus(total);
  return new Decimal(twice.divToInt(new Exact(total).times(2)));
}
