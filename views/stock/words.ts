import type { Decimal } from "decimal.js";
import { plainNumber } from "../parts/quantity.tsx";

type Called = { mark: string; supplier: string; boughtAt: Date };

/** A lot as people tell it from the next one. */
export const lotName = ({ mark, supplier, boughtAt }: Called): string =>
  mark === ""
    ? `bought ${boughtAt.toISOString().slice(0, 10)} of ${supplier}`
    : `${mark} of ${supplier}`;

export type LotAge = "good" | "soon" | "expired";

export const ageWords: Record<LotAge, string | null> = {
  good: null,
  soon: "Soon past its day",
  expired: "Past its day",
};

/** Grams with no more decimals than there are, and four at the most. */
export const gramsWords = (grams: Decimal): string => {
  const text = grams.toDecimalPlaces(4).toFixed();
  return `${text.replace("-", "−")} g`;
};

export const differenceWords = (difference: Decimal): string => {
  if (difference.isZero()) return "as on record";
  const size = gramsWords(difference.abs());
  return difference.isNegative() ? `${size} less than on record` : `${size} more than on record`;
};

/** How long it lasts: in days under two weeks, in weeks to ten, and then in whole weeks. */
export function lastsWords(weeks: Decimal | null): string {
  if (weeks === null) return "no use on record";
  const days = weeks.times(7);
  if (days.lt(1)) return "less than a day";
  if (days.lt(2)) return "1 day";
  if (weeks.lt(2)) return `${days.floor().toFixed()} days`;
  if (weeks.lt(10)) return `${plainNumber(weeks, 1)} weeks`;
  if (weeks.gt(104)) return "more than two years";
  return `${weeks.floor().toFixed()} weeks`;
}

export const moveWords = {
  mix: "Into a mix",
  undone: "Taken back from a mix",
  stocktake: "Counted",
  "other use": "Other use",
} as const;
