import { Decimal } from "decimal.js";
import { baseTotal, type Part } from "./lines.ts";
import { nearestShare, shareOut } from "./shares.ts";

type Weighed = { readonly key: string; readonly part: Part; readonly amount: Decimal };

/** One corner of a blend and what the point has of it, in whatever measure the shares are. */
export type PartOfBlend<Line> = { lines: readonly Line[]; share: Decimal };

/** Decimals that an amount of a blend is given to. */
export const blendDecimals = 9;

const step = new Decimal(10).pow(-blendDecimals);
const stepsOf100 = new Decimal(100).div(step);
const Exact = Decimal.clone({ precision: 160 });

/**
 * Several recipes in one, each brought to a base of 100 with its additions and taken by its share;
 * equal powder and part are one line, base lines come first, and a line of 0 is left out.
 *
 * @param climbs an addition on top, in percent of the base.
 */
export function mergedLines<Line extends Weighed>(
  parts: readonly PartOfBlend<Line>[],
  climbs?: { line: Line; percent: Decimal },
): Line[] {
  const merged = new Map<string, { line: Line; amount: Decimal }>();
  const put = (line: Line, amount: Decimal) => {
    const key = `${line.part} ${line.key}`;
    const known = merged.get(key);
    merged.set(key, { line: known?.line ?? line, amount: amount.plus(known?.amount ?? 0) });
  };
  // Over one common denominator, so that no division comes before the last.
  const bases = parts.map(({ lines }) => baseTotal(lines));
  const others = bases.map((_, own) =>
    bases.reduce((all, base, at) => (at === own ? all : all.times(base)), new Exact(1)),
  );
  for (const [at, { lines, share }] of parts.entries()) {
    if (share.isZero()) continue;
    const factor = new Exact(share).times(others[at] ?? 1);
    for (const line of lines) put(line, factor.times(line.amount));
  }
  const lines = [...merged.values()];
  const base = lines.filter(({ line }) => line.part === "base");
  const total = base.reduce((sum, { amount }) => sum.plus(amount), new Exact(0));
  if (climbs) put(climbs.line, total.times(climbs.percent).div(100));
  const additions = [...merged.values()].filter(({ line }) => line.part === "addition");
  const shares = shareOut(
    base.map(({ amount }) => amount),
    stepsOf100,
  );
  return [
    ...base.map(({ line }, at) => ({ ...line, amount: times(shares[at]) })),
    ...additions.map(({ line, amount }) => ({
      ...line,
      amount: times(nearestShare(amount, total, stepsOf100)),
    })),
  ].filter(({ amount }) => !amount.isZero());
}

const times = (steps: Decimal | undefined): Decimal => (steps ?? new Decimal(0)).times(step);
