import { type Bits, bitsOf, count, noBits, placesOf, union, without } from "./shelf-bits.ts";
import { orderOf, type ShelfOrder, type ShelfRank } from "./shelf-plan-order.ts";
import type { PlanPowder } from "./shelf-plan-types.ts";

/** Which shelves a search is about, and in which order those that reach as much come. */
export type ShelfRule = {
  readonly size: number;
  /** Every powder that some shelf may hold. */
  readonly all: Bits;
  readonly holds: (shelf: Bits) => boolean;
  /** What of `allowed` some shelf with `taken` may still hold; null where there is none such. */
  readonly narrowed: (taken: Bits, allowed: Bits) => Bits | null;
  /** The shelf that comes first of those that hold `taken` and are of `allowed`, by rank alone. */
  readonly first: (taken: Bits, allowed: Bits) => Bits;
  /** What no such shelf comes before. */
  readonly least: (taken: Bits, allowed: Bits) => ShelfRank;
  readonly rank: ShelfOrder["rank"];
};

/** Shelves of exactly so many powders. */
export function ofSize(powders: readonly PlanPowder[], size: number): ShelfRule {
  const order = orderOf(powders);
  return {
    size,
    all: bitsOf(powders.keys()),
    holds: () => true,
    narrowed: (_, allowed) => (count(allowed) < size ? null : allowed),
    first: (taken, allowed) => order.cheapest(taken, allowed, size),
    least: (taken, allowed) => order.least(taken, allowed, size),
    rank: order.rank,
  };
}

/**
 * Shelves of so many powders at most, whose packs cost no more than the budget, both in
 * ten-thousandths of the currency. What has no known price is not bought. A larger shelf is never
 * cheaper, so none comes before what it holds.
 */
export function withinBudget(
  powders: readonly PlanPowder[],
  size: number,
  budget: number,
): ShelfRule {
  const { rank } = orderOf(powders, ({ pack }) => pack);
  const packs = powders.map(({ pack }) => pack ?? Number.POSITIVE_INFINITY);
  const cost = (shelf: Bits) => placesOf(shelf).reduce((sum, at) => sum + (packs[at] ?? 0), 0);
  const narrowed = (taken: Bits, allowed: Bits): Bits | null => {
    const left = budget - cost(taken);
    if (left < 0) return null;
    const more = placesOf(without(allowed, taken)).filter((at) => (packs[at] ?? 0) <= left);
    return union(taken, bitsOf(more));
  };
  return {
    size,
    all: narrowed(noBits, bitsOf(powders.keys())) ?? noBits,
    holds: (shelf) => cost(shelf) <= budget,
    narrowed,
    first: (taken) => taken,
    least: (taken) => rank(taken),
    rank,
  };
}
