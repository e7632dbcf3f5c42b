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
 * Amounts rounded to so many decimals so that they add up to their rounded total, by largest
 * remainder: a column to print.
 *
 * Worked number: 0.334, 0.333 and 0.333 are 0.34, 0.33 and 0.33 in hundredths, 1.00 together.
 */
export function columnOf(
  amounts: readonly Decimal[],
  decimals: number,
): { amounts: Decimal[]; total: Decimal } {
  const total = Decimal.sum(0, ...amounts).toDecimalPlaces(decimals, Decimal.ROUND_HALF_UP);
  if (amounts.every((amount) => amount.isZero())) return { amounts: [...amounts], total };
  const step = new Decimal(10).pow(-decimals);
  const shares = shareOut(amounts, total.div(step));
  return { amounts: shares.map((share) => share.times(step)), total };
}
