import type { Decimal } from "decimal.js";

/** From and to, both of them within. */
export type Band = { low: Decimal; high: Decimal };

export const isAbove = (value: Decimal, { high }: Band): boolean => value.gt(high);

export const isBelow = (value: Decimal, { low }: Band): boolean => value.lt(low);

export const isWithin = (value: Decimal, band: Band): boolean =>
  !isAbove(value, band) && !isBelow(value, band);

export const middleOf = ({ low, high }: Band): Decimal => low.plus(high).div(2);

/** “1.43 to 1.47”, or the one number where both ends are it. */
export const bandWords = ({ low, high }: Band): string =>
  low.eq(high) ? low.toFixed() : `${low.toFixed()} to ${high.toFixed()}`;
