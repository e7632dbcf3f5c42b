import type { Decimal } from "decimal.js";
import { baseTotal, type Part, type WeighedLine } from "./lines.ts";

/** A line as it is compared: `material` and `analysis` are whatever tells one from another. */
export type ComparedLine = WeighedLine & {
  readonly material: string;
  readonly analysis: string | null;
};

/**
 * What became of a powder in one part between two recipes. Amounts are percent of the base, unrounded,
 * null where it is not in; `by` is the right one less the left one. With the same amount and another
 * analysis pinned it is `changed` by 0, since it is not the same powder any more.
 */
export type LineChange = {
  part: Part;
  material: string;
  is: "added" | "removed" | "changed" | "same";
  left: Decimal | null;
  right: Decimal | null;
  by: Decimal;
  otherAnalysis: boolean;
};

type Gathered = { part: Part; material: string; amount: Decimal; analyses: string };

/**
 * Two recipes line by line, each brought to a base of 100. Lines of one powder in one part count
 * together. The order is that of the left one with what was added behind it, base before additions.
 *
 * Worked number: whiting 20 of a base of 100 against 30 of a base of 120 is 20 and 25, changed by +5.
 */
export function lineChanges(
  left: readonly ComparedLine[],
  right: readonly ComparedLine[],
): LineChange[] {
  const [before, after] = [gathered(left), gathered(right)];
  const keys = [...new Set([...before.keys(), ...after.keys()])];
  const changes = keys.flatMap((key) => {
    const change = changeOf(before.get(key), after.get(key));
    return change ? [change] : [];
  });
  return [
    ...changes.filter(({ part }) => part === "base"),
    ...changes.filter(({ part }) => part === "addition"),
  ];
}

function changeOf(left: Gathered | undefined, right: Gathered | undefined): LineChange | undefined {
  const known = left ?? right;
  if (!known) return undefined;
  const { part, material } = known;
  if (!left || !right) {
    const by = right ? right.amount : known.amount.neg();
    const is = right ? "added" : "removed";
    const sides = { left: left?.amount ?? null, right: right?.amount ?? null };
    return { part, material, is, ...sides, by, otherAnalysis: false };
  }
  const by = right.amount.minus(left.amount);
  const otherAnalysis = left.analyses !== right.analyses;
  const is = by.isZero() && !otherAnalysis ? "same" : "changed";
  return { part, material, is, left: left.amount, right: right.amount, by, otherAnalysis };
}

/** Powders by part, summed before they are scaled: equal recipes come to equal numbers. */
function gathered(lines: readonly ComparedLine[]): Map<string, Gathered> {
  const base = baseTotal(lines);
  const sums = new Map<string, Gathered & { pinned: Set<string> }>();
  for (const { part, material, amount, analysis } of lines) {
    const key = `${part} ${material}`;
    const known = sums.get(key);
    const pinned = (known?.pinned ?? new Set()).add(analysis ?? "");
    const sum = known ? known.amount.plus(amount) : amount;
    sums.set(key, { part, material, amount: sum, analyses: [...pinned].sort().join(" "), pinned });
  }
  for (const [key, sum] of sums)
    sums.set(key, { ...sum, amount: base.isZero() ? sum.amount : sum.amount.times(100).div(base) });
  return sums;
}
