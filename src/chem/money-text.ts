import { Decimal } from "decimal.js";
import { shareOut } from "./shares.ts";

/**
 * An exact amount of money in plain digits: two decimals, or all that it has where it has more.
 *
 * Worked number: 12.5 is 12.50, and 0.1234 stays what it is.
 */
export const moneyText = (amount: Decimal): string =>
  amount.toFixed(Math.max(2, amount.decimalPlaces()));

/**
 * Amounts rounded to hundredths so that they add up to their rounded total, by largest remainder.
 *
 * Worked number: 0.334, 0.333 and 0.333 are 0.34, 0.33 and 0.33, 1.00 together.
 */
export function inHundredths(amounts: readonly Decimal[]): { amounts: Decimal[]; total: Decimal } {
  const total = Decimal.sum(0, ...amounts).toDecimalPlaces(2, Decimal.ROUND_HALF_UP);
  if (amounts.every((amount) => amount.isZero())) return { amounts: [...amounts], total };
  const shares = shareOut(amounts, total.times(100));
  return { amounts: shares.map((share) => share.div(100)), total };
}
