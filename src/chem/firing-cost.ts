import type { Decimal } from "decimal.js";

/**
 * What a unit of energy came to, where a whole firing's price is known: price over amount,
 * unrounded. Null where nothing was used. Worked number: 16.24 for 58 kWh is 0.28 for each.
 */
export const pricePerUnit = (price: Decimal, amount: Decimal): Decimal | null =>
  amount.isZero() ? null : price.div(amount);
