import { placesOf } from "./shelf-bits.ts";
import { nearestMix } from "./shelf-mix.ts";
import { type SearchLimits, type Stopped, shelfSearch } from "./shelf-plan-search.ts";
import type { PlanMissed, PlanPowder, PlanProblem, PlanReached } from "./shelf-plan-types.ts";
import { whyMissed } from "./shelf-words.ts";

/** How many recipes the best shelf of a size reaches, as far as that could be settled. */
export type CurvePoint = { size: number; reached: number; bound: number; proven: boolean };

/**
 * The few powders that reach the most recipes. Powders and recipes are told by their places in the
 * problem. `bound` is what no shelf of the size can pass; `proven` where nothing was left open.
 */
export type ShelfPlan = {
  shelf: number[];
  reached: PlanReached[];
  missed: PlanMissed[];
  bound: number;
  proven: boolean;
  stopped?: Stopped;
  curve?: CurvePoint[];
};

/** A `budget` is in ten-thousandths of the currency, and makes the size the most there may be. */
export type PlanAsked = PlanProblem & {
  size: number;
  curve: boolean;
  budget?: number | undefined;
};

/** How many more powders than asked for the curve goes on. */
const curveBeyond = 2;

/**
 * The `size` powders from which the most recipes can be restated, each base with every oxide of its
 * unity formula within its tolerance (shelf-tolerance.ts). Of shelves that reach as many the cheaper
 * one is taken, then the first by the alphabet, so equal input gives equal output. With a budget one
 * pack of each must not cost more, and the cheaper shelf is the one whose packs cost less.
 *
 * @param steps what the search for one size may spend.
 */
export function planShelf(asked: PlanAsked, { steps, isLate }: SearchLimits): ShelfPlan {
  const { powders, targets, within, size, budget } = asked;
  const search = shelfSearch(asked);
  const found = search.best(size, { steps, isLate }, budget);
  const shelf = placesOf(found.shelf).sort((a, b) =>
    labelOf(powders, a) < labelOf(powders, b) ? -1 : 1,
  );
  const onShelf = shelf.map((at) => powders[at] as PlanPowder);

  const reached = found.reached.flatMap((target) => {
    const wanted = targets[target]?.wanted;
    const mix = wanted && nearestMix({ wanted, powders: onShelf, within });
    if (!mix) return [];
    const lines = mix.lines.map(({ powder, amount }) => ({ powder: shelf[powder] ?? 0, amount }));
    return [{ target, lines, worst: mix.worst }];
  });
  const got = new Set(reached.map(({ target }) => target));
  const missed = [...targets.keys()]
    .filter((target) => !got.has(target))
    .map((target) => ({
      target,
      because: whyMissed({
        wanted: targets[target]?.wanted ?? null,
        shelf: onShelf,
        candidates: powders,
        within,
      }),
    }));
  return {
    shelf,
    reached,
    missed,
    bound: found.bound,
    proven: found.proven,
    ...(found.stopped && { stopped: found.stopped }),
    ...(asked.curve && { curve: curveOf() }),
  };

  function curveOf(): CurvePoint[] {
    const last = Math.min(size + curveBeyond, powders.length);
    const points: CurvePoint[] = [];
    for (let each = 1; each <= last; each++) {
      const best = each === size ? found : search.best(each, { steps: steps / 4, isLate }, budget);
      // A larger shelf holds every smaller one, so it never reaches fewer.
      const before = points.at(-1)?.reached ?? 0;
      const count = Math.max(best.reached.length, before);
      points.push({
        size: each,
        reached: count,
        bound: Math.max(best.bound, count),
        proven: best.proven,
      });
    }
    return points;
  }
}

const labelOf = (powders: readonly PlanPowder[], at: number): string =>
  (powders[at]?.label ?? "").toLowerCase();

/** Which powders of a shelf stand in none of the mixes. */
export const unusedOf = ({ shelf, reached }: Pick<ShelfPlan, "shelf" | "reached">): number[] =>
  shelf.filter((at) => !reached.some(({ lines }) => lines.some(({ powder }) => powder === at)));
