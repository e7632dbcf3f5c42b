import {
  type Bits,
  bit,
  count,
  has,
  isIn,
  noBits,
  placesOf,
  union,
  without,
} from "./shelf-bits.ts";
import { compareRanks, type ShelfRank } from "./shelf-plan-order.ts";
import { ofSize, type ShelfRule, withinBudget } from "./shelf-plan-rule.ts";
import type { PlanProblem } from "./shelf-plan-types.ts";
import { type Reaching, reachingOf, type Steps } from "./shelf-reaching.ts";

/** What a search may spend: steps, the same every time, and a clock as a guard. */
export type SearchLimits = { steps: number; isLate: () => boolean };

export type Stopped = "steps" | "clock";

/**
 * The best shelf of a size: `reached` are the places of the recipes that it reaches, `bound` what no
 * shelf that was asked about can pass, and `proven` says that both are the same. Where the search was `stopped`
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
    /**
     * The best shelf of a size, as far as the limits let it be found and proven; with a budget, in
     * ten-thousandths of the currency, of that size at most.
     */
    best(size: number, given: SearchLimits, budget?: number): FoundShelf {
      limits = given;
      steps.left = given.steps;
      look = given.steps;
      const rule =
        budget === undefined ? ofSize(powders, size) : withinBudget(powders, size, budget);
      const state: State = { rule, best: undefined, bound: targets.length };
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
  type State = { rule: ShelfRule; best: Best | undefined; bound: number };

  function withoutLimit<Answer>(run: () => Answer): Answer {
    limits = { steps: Number.POSITIVE_INFINITY, isLate: () => false };
    steps.left = Number.POSITIVE_INFINITY;
    look = Number.NEGATIVE_INFINITY;
    return run();
  }

  function answerOf({ rule, best, bound }: State, stopped: Stopped | undefined): FoundShelf {
    const shelf = best?.shelf ?? rule.first(noBits, rule.all);
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
    const { rule } = state;
    let { shelf, reached } = dive(state);
    offer(state, shelf, reached);
    for (let better = true; better; ) {
      better = false;
      for (const out of placesOf(shelf)) {
        for (const into of placesOf(without(rule.all, shelf))) {
          const other = union(without(shelf, bit(out)), bit(into));
          if (!rule.holds(other)) continue;
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

  function dive({ rule }: State): { shelf: Bits; reached: number } {
    const { size } = rule;
    let [taken, allowed] = [noBits, rule.all];
    let open = openAt([...reachings.keys()], new Map(), taken, allowed, size);
    while (count(taken) < size) {
      const at = branchAt(open, taken, allowed);
      if (at === undefined) break;
      taken = union(taken, bit(at));
      allowed = rule.narrowed(taken, allowed) ?? taken;
      open = openAt([...open.keys()], open, taken, allowed, size);
    }
    const shelf = rule.first(taken, rule.all);
    return { shelf, reached: reachedBy(shelf).length };
  }

  /** Asks for ever fewer recipes until a shelf has them. */
  function descend(state: State): void {
    const { all, size } = state.rule;
    const open = openAt([...reachings.keys()], new Map(), noBits, all, size);
    for (state.bound = open.size; state.bound >= 0; state.bound--) {
      explore(state, open, noBits, all);
      if (state.best && state.best.reached >= state.bound) return;
    }
  }

  /** Looks for shelves that reach `bound` recipes and come before the best one that does. */
  function explore(state: State, known: Open, taken: Bits, among: Bits): void {
    steps.left -= 1;
    steps.tick();
    const { rule, bound } = state;
    const room = rule.size - count(taken);
    const allowed = room < 0 ? null : rule.narrowed(taken, among);
    if (!allowed) return;
    const open = openAt([...known.keys()], known, taken, allowed, room, bound);
    if (open.size < bound) return;
    if (!mayComeFirst(state, taken, allowed)) return;
    const first = rule.first(taken, allowed);
    if (reachedWhere(open, first) >= bound) {
      offer(state, first, reachedBy(first).length);
      if (!mayComeFirst(state, taken, allowed)) return;
    }
    if (room === 0) return;
    const at = branchAt(open, taken, allowed) ?? placesOf(without(first, taken))[0];
    if (at === undefined) return;
    explore(state, open, union(taken, bit(at)), allowed);
    explore(state, open, taken, without(allowed, bit(at)));
  }

  function mayComeFirst({ best, bound, rule }: State, taken: Bits, allowed: Bits): boolean {
    if (!best || best.reached < bound) return true;
    return compareRanks(rule.least(taken, allowed), best.rank) < 0;
  }

  function reachedWhere(open: Open, shelf: Bits): number {
    return [...open.keys()].filter((at) => (reachings[at] as Reaching).reaches(shelf)).length;
  }

  function offer(state: State, shelf: Bits, reached: number): void {
    const { best, rule } = state;
    const rank = rule.rank(shelf);
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
