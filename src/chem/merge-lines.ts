import type { Decimal } from "decimal.js";
import { baseTotal, type Part, type WeighedLine } from "./lines.ts";

/** Whose word is taken: the recipe's as it stands now, or that of the fork which is offered to it. */
export type Side = "recipe" | "offer";

/** What is merged as one: `take` is null where both changed it, each its own way. */
export type Merged<Value> = {
  key: string;
  base: Value | undefined;
  recipe: Value | undefined;
  offer: Value | undefined;
  take: Side | "either" | null;
};

/** A line as it is merged: `material` and `analysis` are whatever tells one from another. */
export type MergeableLine = {
  readonly part: Part;
  readonly material: string;
  readonly analysis: string | null;
  readonly amount: Decimal;
};

/**
 * One value that two sides may have changed since both came from `base`; undefined is "not there".
 * What one side alone changed is taken from it, what both changed alike is either's.
 */
export function mergeValue<Value>(
  key: string,
  [base, recipe, offer]: readonly [Value | undefined, Value | undefined, Value | undefined],
  same: (a: Value, b: Value) => boolean,
): Merged<Value> {
  const equal = (a: Value | undefined, b: Value | undefined) =>
    a === undefined || b === undefined ? a === b : same(a, b);
  const take = equal(recipe, offer)
    ? "either"
    : equal(base, offer)
      ? "recipe"
      : equal(base, recipe)
        ? "offer"
        : null;
  return { key, base, recipe, offer, take };
}

/**
 * A recipe and a fork of it brought together, line by line, by what each did since `base`. A line is
 * known by its part and powder, and is taken whole: its amount never comes from one side and its
 * analysis from the other. Amounts are merged as they were typed, so bases of other totals conflict.
 *
 * The order is the recipe's; where the recipe kept the order of `base`, the offer's. What only the
 * other one has comes last.
 *
 * Worked number: from whiting 20 and quartz 30, a recipe with whiting 18 and an offer with quartz 32
 * become whiting 18 and quartz 32; an offer with whiting 15 is a conflict.
 */
export function mergeLines<Line extends MergeableLine>(
  base: readonly Line[],
  recipe: readonly Line[],
  offer: readonly Line[],
): Merged<Line>[] {
  const sides = [keyed(base), keyed(recipe), keyed(offer)] as const;
  const [before, ours, theirs] = sides;
  const lead = sameOrder(before, ours) ? [theirs, ours] : [ours, theirs];
  const keys = new Set([...lead, before].flatMap((side) => [...side.keys()]));
  return [...keys].map((key) =>
    mergeValue(key, [before.get(key), ours.get(key), theirs.get(key)], sameLine),
  );
}

export type Resolved<Value> =
  | { kind: "resolved"; values: Value[] }
  | { kind: "open"; keys: string[] };

/** What comes of a merge once each conflict is decided; `open` names those that are not. */
export function resolve<Value>(
  merged: readonly Merged<Value>[],
  choices: Readonly<Partial<Record<string, Side>>>,
): Resolved<Value> {
  const keys = merged.flatMap(({ key, take }) => (take === null && !choices[key] ? [key] : []));
  if (keys.length > 0) return { kind: "open", keys };
  const values = merged.flatMap((each) => {
    const taken = (each.take ?? choices[each.key]) === "offer" ? each.offer : each.recipe;
    return taken === undefined ? [] : [taken];
  });
  return { kind: "resolved", values };
}

/**
 * What the base of a merge totals, or null while one of its lines has to be chosen. Two recipes at a
 * base of 100 need not merge into one: 18 for 20 here and 32 for 30 there do, either alone does not.
 */
export function mergedBase(merged: readonly Merged<WeighedLine>[]): Decimal | null {
  const lines = merged.filter(
    ({ base, recipe, offer }) => (recipe ?? offer ?? base)?.part === "base",
  );
  const resolved = resolve(lines, {});
  return resolved.kind === "resolved" ? baseTotal(resolved.values) : null;
}

const sameLine = (a: MergeableLine, b: MergeableLine): boolean =>
  a.amount.eq(b.amount) && a.analysis === b.analysis;

/** Lines by part and powder; a second line of the same is known by its number. */
function keyed<Line extends MergeableLine>(lines: readonly Line[]): Map<string, Line> {
  const byKey = new Map<string, Line>();
  for (const line of lines) {
    const key = `${line.part}:${line.material}`;
    let free = key;
    for (let number = 2; byKey.has(free); number += 1) free = `${key}:${number}`;
    byKey.set(free, line);
  }
  return byKey;
}

const sameOrder = (a: ReadonlyMap<string, unknown>, b: ReadonlyMap<string, unknown>): boolean =>
  [...a.keys()].join("\n") === [...b.keys()].join("\n");
