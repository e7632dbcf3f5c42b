import type { Decimal } from "decimal.js";
import type { Cost, Money } from "../../src/chem/cost.ts";
import type { Difference } from "../../src/chem/differences.ts";
import type { LineChange } from "../../src/chem/line-changes.ts";
import { plainNumber } from "../parts/quantity.tsx";

/** How two numbers differ. Never "none": what is within the ± of the difference cannot be told apart. */
export function differenceWords({
  difference,
  plusMinus,
}: Pick<Difference, "difference" | "plusMinus">): string {
  if (Math.abs(difference) <= plusMinus) return "cannot be told apart";
  const decimals = decimalsOf(plusMinus || Math.abs(difference));
  const sign = difference < 0 ? "" : "+";
  return `differs by ${sign}${plainNumber(difference, decimals)} ± ${plainNumber(plusMinus, decimals)}`;
}

/** Two significant digits of the smaller of the two that is there, between three decimals and six. */
const decimalsOf = (size: number): number =>
  Math.min(Math.max(1 - Math.floor(Math.log10(size)), 3), 6);

/** An amount of a base of 100, to two decimals or as many as it takes not to print nothing. */
export function partsWords(amount: Decimal): string {
  const rounded = amount.toDecimalPlaces(2);
  const shown = rounded.isZero() ? amount.toSignificantDigits(1) : rounded;
  return shown.toFixed().replace("-", "−");
}

/** What became of a line, in words; a changed one says by how much. */
export function changeWords({
  is,
  by,
  otherAnalysis,
}: Pick<LineChange, "is" | "by" | "otherAnalysis">) {
  const signed = `${by.gt(0) ? "+" : ""}${partsWords(by)}`;
  if (is !== "changed") return is === "same" ? "same" : `${is}, ${signed}`;
  if (by.isZero()) return "changed: same amount, another analysis";
  return otherAnalysis ? `changed by ${signed}, and another analysis` : `changed by ${signed}`;
}

const money = ({ amount, currency }: Money): string => `${plainNumber(amount, 2)} ${currency}`;

/** What a batch costs, or what of it is known and which powders have no price. */
export function costWords({ total, known, without }: Cost): string {
  if (total) return money(total);
  if (known.length === 0) return "no price of its powders is on record";
  const sums = known.map(money).join(" and ");
  return without.length === 0
    ? `${sums}, which do not add up`
    : `${sums} without ${without.join(", ")}`;
}

/** Which analysis it is, by its source and day. */
export function analysisWords(analysis: { source: string; measuredOn: string | null } | null) {
  if (!analysis) return "no analysis";
  return analysis.measuredOn ? `${analysis.source}, ${analysis.measuredOn}` : analysis.source;
}
