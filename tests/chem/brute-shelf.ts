import { bitsOf } from "../../src/chem/shelf-bits.ts";
import { compareRanks, orderOf, type ShelfRank } from "../../src/chem/shelf-plan-order.ts";
import type { PlanProblem } from "../../src/chem/shelf-plan-types.ts";
import { type ReachRow, reachRows } from "../../src/chem/shelf-tolerance.ts";
import { solveSmall } from "../../src/chem/small-lp.ts";

/** The inner test by itself: whether some mix of these powders meets the rows. */
export const isReached = (rows: readonly ReachRow[], places: readonly number[]): boolean =>
  solveSmall({
    rows: rows.map(({ coefficients, most }) => ({
      coefficients: places.map((at) => coefficients[at] ?? 0),
      most,
    })),
    costs: places.map(() => 1),
  }).kind === "best";

/** Tries every shelf of a size with the inner test and keeps the best, by count and then by rank. */
export function bruteShelf({ powders, targets, within }: PlanProblem, size: number) {
  const rows = targets.map(({ wanted }) => wanted && reachRows(wanted, powders, within));
  const order = orderOf(powders);
  let best: { reached: number; rank: ShelfRank; shelf: number[] } | undefined;
  for (const shelf of shelvesOf(powders.length, size)) {
    const reached = rows.filter((each) => each && isReached(each, shelf)).length;
    if (best && reached < best.reached) continue;
    const rank = order.rank(bitsOf(shelf));
    if (!best || reached > best.reached || compareRanks(rank, best.rank) < 0)
      best = { reached, rank, shelf };
  }
  return best!;
}

/**
 * The same of all shelves of so many at most whose packs cost no more: by count, then by what the
 * packs cost, then the fewer, then by name.
 */
export function bruteBudget(
  { powders, targets, within }: PlanProblem,
  size: number,
  budget: number,
) {
  type Tried = { reached: number; cost: number; shelf: number[] };
  const rows = targets.map(({ wanted }) => wanted && reachRows(wanted, powders, within));
  const names = (shelf: readonly number[]) =>
    shelf
      .map((at) => powders[at]?.label ?? "")
      .sort()
      .join("\n");
  const comesBefore = (a: Tried, b: Tried): boolean => {
    if (a.reached !== b.reached) return a.reached > b.reached;
    if (a.cost !== b.cost) return a.cost < b.cost;
    if (a.shelf.length !== b.shelf.length) return a.shelf.length < b.shelf.length;
    return names(a.shelf) < names(b.shelf);
  };
  let best: Tried | undefined;
  for (let many = 0; many <= size; many++) {
    for (const shelf of shelvesOf(powders.length, many)) {
      const cost = shelf.reduce((sum, at) => sum + (powders[at]?.pack ?? Infinity), 0);
      if (cost > budget) continue;
      const reached = rows.filter((each) => each && isReached(each, shelf)).length;
      const tried = { reached, cost, shelf };
      if (!best || comesBefore(tried, best)) best = tried;
    }
  }
  return best!;
}

function* shelvesOf(
  many: number,
  size: number,
  from = 0,
  taken: number[] = [],
): Generator<number[]> {
  if (taken.length === size) {
    yield taken;
    return;
  }
  for (let at = from; at <= many - (size - taken.length); at++)
    yield* shelvesOf(many, size, at + 1, [...taken, at]);
}
