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
