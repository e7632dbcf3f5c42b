import { Decimal } from "decimal.js";

/** What is on record of one powder in the room, in grams. */
export type PowderStock = {
  /** Over its lots that may be used. */
  usable: Decimal;
  /** What came out for mixes and other uses, without what was taken back, in so many days. */
  used: Decimal;
  days: number;
  /** How much the studio says should always be there; null where its use tells. */
  ownLine: Decimal | null;
  /** For how many weeks of use there should be powder. */
  weeks: number;
};

export type StockState = {
  perWeek: Decimal;
  /** Below which it is low. */
  line: Decimal;
  lineIs: "own" | "from use";
  isLow: boolean;
  /** How many weeks the usable lasts at this use; null where nothing of it is used. */
  lastsWeeks: Decimal | null;
};

/** Use is counted over so many days at the most, and over a week at the least. */
export const mostDays = 84;
const leastDays = 7;
const dayMs = 24 * 60 * 60 * 1000;

/**
 * Over how many days the use of a powder is counted: as long as it is on record, between 7 and 84,
 * so that a studio that began last month is not told that it uses a third of what it does.
 *
 * Worked: first bought on 1 March, asked on 31 March: 30 days.
 */
export const daysCounted = (since: Date, now: Date): number =>
  Math.min(mostDays, Math.max(leastDays, Math.ceil((now.getTime() - since.getTime()) / dayMs)));

/**
 * What a powder's stock comes to. What follows from use is use per week × the weeks that there should
 * be powder for. More taken back than used counts as no use, less than nothing left as nothing.
 *
 * Common practice, no source. Worked: 4800 g used in 84 days are 400 g a week; for six weeks the line
 * is at 2400 g, so 1800 g are low and last 4.5 weeks.
 */
export function stockState({ usable, used, days, ownLine, weeks }: PowderStock): StockState {
  const perWeek = Decimal.max(0, used).times(7).div(days);
  const line = ownLine ?? perWeek.times(weeks);
  return {
    perWeek,
    line,
    lineIs: ownLine ? "own" : "from use",
    // Multiplied out, since a week's use has no end of decimals.
    isLow: ownLine
      ? usable.lt(ownLine)
      : usable.times(days).lt(Decimal.max(0, used).times(7).times(weeks)),
    lastsWeeks: perWeek.isZero() ? null : Decimal.max(0, usable).div(perWeek),
  };
}

export type LotAge = "good" | "soon" | "expired";

/** So many days before its day a lot is said to be near it. */
const soonDays = 30;

/**
 * Whether a lot is past the day that it is best before, or near it: within 30 days. On the day itself
 * it is not past. A lot without such a day is good.
 *
 * Common practice, no source. Worked: best before 2026-04-30 is soon on 2026-03-31, good the day before.
 */
export function lotAge(bestBefore: string | null, today: string): LotAge {
  if (bestBefore === null) return "good";
  if (bestBefore < today) return "expired";
  return Date.parse(bestBefore) - Date.parse(today) <= soonDays * dayMs ? "soon" : "good";
}

/**
 * How much of a lot is used, percent of what was bought: between 0 and 100, and null where nothing was.
 * Worked: 1250 g left of 5000 g are 75 % used.
 */
export const usedPercent = (bought: Decimal, left: Decimal): Decimal | null =>
  bought.isZero()
    ? null
    : Decimal.min(100, Decimal.max(0, bought.minus(left).times(100).div(bought)));
