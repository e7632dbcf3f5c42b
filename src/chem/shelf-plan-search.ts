import {
  type Bits,
  bit,
  bitsOf,
  count,
  has,
  isIn,
  noBits,
  placesOf,
  union,
  without,
} from "./shelf-bits.ts";
import { compareRanks, orderOf, type ShelfRank } from "./shelf-plan-order.ts";
import type { PlanProblem } from "./shelf-plan-types.ts";
import { type Reaching, reachingOf, type Steps } from "./shelf-reaching.ts";

/** What a search may spend: steps, the same every time, and a clock as a guard. */
export type SearchLimits = { steps: number; isLate: () => boolean };

export type Stopped = "steps" | "clock";

/**
 * The best shelf of a size: `reached` are the places of the recipes that it reaches, `bound` what no
 * shelf of that size can pass, and `proven` says that both are the same. Where the search was `stopped`
 * even so, another shelf may reach as many and come first.
 */
export type FoundShelf = {
  shelf: Bits;
  reached: number[];
  bound: number;
  proven: boolean;
  stopped?: Stopped;
};

/** Ends a search from within; nothing that was found out is lost. */
class OutOfSteps extends Error {
  readonly by: Stopped;
  constructor(by: Stopped) {
    super(by);
    this.by = by;
  }
}

/** How many steps pass between two looks at the clock. */
const stepsOfLook = 2000;

/**
 * A search over the shelves of one problem. What it found out of which sets reach a recipe holds for
 * every size, so one search answers for all of them.
 *
 * Branch and bound: a node has powders that are taken and powders that are still allowed. A recipe
 * counts there while some mix within the size reaches it by itself, so the count is never too small;
 * the first question is whether that count itself can be had, then one less, and so on, which makes the
 * question that could not be settled an honest bound.
 */
export function shelfSearch(problem: PlanProblem) {
  const { powders, targets, within } = problem;
  const order = orderOf(powders);
  const everything = bitsOf(powders.keys());
  let limits: SearchLimits = { steps: 0, isLate: () => false };
  let look = 0;
  const steps: Steps = {
    left: 0,
    tick() {
      if (steps.left <= 0) throw new OutOfSteps("steps");
      if (steps.left > look) return;
      look = steps.left - stepsOfLook;
      if (limits.isLate()) throw new OutOfSteps("clock");
    },
  };
  const reachings = targets.map(({ wanted }) => reachingOf(wanted, powders, within, steps));
  const reachedBy = (shelf: Bits): number[] =>
    [...reachings.keys()].filter((at) => (reachings[at] as Reaching).reaches(shelf));

  return {
    everything,
    reachedBy: (shelf: Bits) => withoutLimit(() => reachedBy(shelf)),
    /** The best shelf of a size, as far as the limits let it be found and proven. */
    best(size: number, given: SearchLimits): FoundShelf {
      limits = given;
      steps.left = given.steps;
      look = given.steps;
      const state: State = { size, best: undefined, bound: targets.length };
      try {
        start(state);
        descend(state);
      } catch (error) {
        if (!(error instanceof OutOfSteps)) throw error;
        return withoutLimit(() => answerOf(state, error.by));
      }
      return withoutLimit(() => answerOf(state, undefined));
    },
  };

  type Best = { shelf: Bits; reached: number; rank: ShelfRank };
  type State = { size: number; best: Best | undefined; bound: number };

  function withoutLimit<Answer>(run: () => Answer): Answer {
    limits = { steps: Number.POSITIVE_INFINITY, isLate: () => false };
    steps.left = Number.POSITIVE_INFINITY;
    look = Number.NEGATIVE_INFINITY;
    return run();
  }

  function answerOf({ size, best, bound }: State, stopped: Stopped | undefined): FoundShelf {
    const shelf = best?.shelf ?? order.cheapest(noBits, everything, size);
    const reached = reachedBy(shelf);
    const least = stopped === undefined ? reached.length : Math.max(bound, reached.length);
    return {
      shelf,
      reached,
      bound: least,
      proven: least === reached.length,
      ...(stopped && { stopped }),
    };
  }

  /** A good shelf to begin with: from a dive, bettered by exchanging one powder at a time. */
  function start(state: State): void {
    let { shelf, reached } = dive(state);
    offer(state, shelf, reached);
    for (let better = true; better; ) {
      better = false;
      for (const out of placesOf(shelf)) {
        for (const into of placesOf(without(everything, shelf))) {
          const other = union(without(shelf, bit(out)), bit(into));
          const found = reachedBy(other).length;
          if (found <= reached) continue;
          [shelf, reached, better] = [other, found, true];
          offer(state, shelf, reached);
          break;
        }
        if (better) break;
      }
    }
  }

  function dive({ size }: State): { shelf: Bits; reached: number } {
    let taken = noBits;
    let open = openAt([...reachings.keys()], new Map(), taken, everything, size);
    while (count(taken) < size) {
      const at = branchAt(open, taken, everything);
      if (at === undefined) break;
      taken = union(taken, bit(at));
      open = openAt([...open.keys()], open, taken, everything, size);
    }
    const shelf = order.cheapest(taken, everything, size);
    return { shelf, reached: reachedBy(shelf).length };
  }

  /** Asks for ever fewer recipes until a shelf has them. */
  function descend(state: State): void {
    const { size } = state;
    const open = openAt([...reachings.keys()], new Map(), noBits, everything, size);
    for (state.bound = open.size; state.bound >= 0; state.bound--) {
      explore(state, open, noBits, everything);
      if (state.best && state.best.reached >= state.bound) return;
    }
  }

  /** Looks for shelves that reach `bound` recipes and come before the best one that does. */
  function explore(state: State, known: Open, taken: Bits, allowed: Bits): void {
    steps.left -= 1;
    steps.tick();
    const { size, bound } = state;
    const room = size - count(taken);
    if (room < 0 || count(allowed) < size) return;
    const open = openAt([...known.keys()], known, taken, allowed, room, bound);
    if (open.size < bound) return;
    if (!mayComeFirst(state, taken, allowed)) return;
    const cheapest = order.cheapest(taken, allowed, size);
    if (reachedWhere(open, cheapest) >= bound) {
      offer(state, cheapest, reachedBy(cheapest).length);
      if (!mayComeFirst(state, taken, allowed)) return;
    }
    if (room === 0) return;
    const at = branchAt(open, taken, allowed) ?? placesOf(without(cheapest, taken))[0];
    if (at === undefined) return;
    explore(state, open, union(taken, bit(at)), allowed);
    explore(state, open, taken, without(allowed, bit(at)));
  }

  function mayComeFirst({ best, bound, size }: State, taken: Bits, allowed: Bits): boolean {
    if (!best || best.reached < bound) return true;
    return compareRanks(order.least(taken, allowed, size), best.rank) < 0;
  }

  function reachedWhere(open: Open, shelf: Bits): number {
    return [...open.keys()].filter((at) => (reachings[at] as Reaching).reaches(shelf)).length;
  }

  function offer(state: State, shelf: Bits, reached: number): void {
    const rank = order.rank(shelf);
    const { best } = state;
    const first =
      !best ||
      reached > best.reached ||
      (reached === best.reached && compareRanks(rank, best.rank) < 0);
    if (first) state.best = { shelf, reached, rank };
  }

  /** The recipes that can still be reached one by one, each with a mix that does it. */
  function openAt(
    from: readonly number[],
    known: Open,
    taken: Bits,
    allowed: Bits,
    room: number,
    enough = 0,
  ): Open {
    const open: Open = new Map();
    let hope = from.length;
    for (const target of from) {
      const before = known.get(target);
      const still = before && isIn(before, allowed) && count(without(before, taken)) <= room;
      const mix = still ? before : (reachings[target] as Reaching).extend(taken, allowed, room);
      if (mix) open.set(target, mix);
      else hope -= 1;
      if (hope < enough) return open;
    }
    return open;
  }

  /** The powder that the mixes of most open recipes ask for, those with the least to choose first. */
  function branchAt(open: Open, taken: Bits, allowed: Bits): number | undefined {
    const votes = new Float64Array(powders.length);
    for (const mix of open.values()) {
      const asked = without(mix, taken);
      const share = 1 / count(asked);
      for (const at of placesOf(asked)) votes[at] = (votes[at] ?? 0) + share;
    }
    let chosen: number | undefined;
    for (let at = 0; at < votes.length; at++) {
      if (!has(allowed, at) || !votes[at]) continue;
      if (chosen === undefined || (votes[at] ?? 0) > (votes[chosen] ?? 0)) chosen = at;
    }
    return chosen;
  }
}

/** By the place of a recipe: a mix that reaches it. */
type Open = Map<number, Bits>;
