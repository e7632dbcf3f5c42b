import { nearestMix } from "./shelf-mix.ts";
import type { PlanMissed, PlanPowder, PlanProblem, PlanReached } from "./shelf-plan-types.ts";
import { type ReachRow, reachRows } from "./shelf-tolerance.ts";
import { whyMissed } from "./shelf-words.ts";
import { type SmallLp, solveSmall } from "./small-lp.ts";

/**
 * How far a shelf goes. Of `powders` the first `have` are there, the others could be bought;
 * `bases` are the powders of each recipe's base, -1 for one that is none of them.
 */
export type ReachAsked = PlanProblem & {
  have: number;
  bases: readonly (readonly number[])[];
};

export type ShelfReach = {
  /** Recipes whose base is all there, as it is written. */
  asTheyAre: number[];
  restated: PlanReached[];
  /** Recipes that one more powder opens, each with every one that does. */
  withOneMore: { target: number; powders: number[] }[];
  beyond: PlanMissed[];
  /** What each powder would open, the one that opens the most first. */
  opens: { powder: number; targets: number[] }[];
  stopped?: "clock";
};

/** Which recipes a shelf makes as they are, restated, or with one powder more, and which one that is. */
export function reachOfShelf(asked: ReachAsked, isLate: () => boolean): ShelfReach {
  const { powders, targets, within, have, bases } = asked;
  const shelf = powders.slice(0, have);
  const answer: ShelfReach = {
    asTheyAre: [],
    restated: [],
    withOneMore: [],
    beyond: [],
    opens: [],
  };
  const opens = new Map<number, number[]>();
  for (const [target, { wanted }] of targets.entries()) {
    const base = bases[target] ?? [];
    if (base.every((at) => at >= 0 && at < have)) {
      answer.asTheyAre.push(target);
      continue;
    }
    const mix = wanted && nearestMix({ wanted, powders: shelf, within });
    if (mix) {
      answer.restated.push({ target, ...mix });
      continue;
    }
    if (isLate()) {
      answer.stopped = "clock";
      const because = "There was no time left to look for one more powder.";
      answer.beyond.push({ target, because });
      continue;
    }
    const more = wanted ? openers(target, wanted) : [];
    if (more.length === 0) {
      const because = whyMissed({ wanted, shelf, candidates: powders, within });
      answer.beyond.push({ target, because });
      continue;
    }
    answer.withOneMore.push({ target, powders: more });
    for (const powder of more) opens.set(powder, [...(opens.get(powder) ?? []), target]);
  }
  answer.opens = [...opens]
    .map(([powder, opened]) => ({ powder, targets: opened }))
    .sort((a, b) => b.targets.length - a.targets.length || byLabel(powders, a.powder, b.powder));
  return answer;

  function openers(target: number, wanted: readonly number[]): number[] {
    const lacking = new Set((bases[target] ?? []).filter((at) => at < 0 || at >= have));
    const [last] = lacking.size === 1 ? lacking : [];
    const rows = reachRows(wanted, powders, within);
    const own = [...shelf.keys()];
    const alone = solveSmall(programOf(rows, own));
    if (alone.kind !== "none") return [];
    // What does not weigh against the proof that this shelf cannot do it leaves the proof standing.
    return [...powders.keys()].slice(have).filter((at) => {
      if (at === last) return true;
      const ends = rows.reduce(
        (sum, { coefficients }, row) => sum + (alone.weights[row] ?? 0) * (coefficients[at] ?? 0),
        0,
      );
      return ends < 0 && solveSmall(programOf(rows, [...own, at])).kind === "best";
    });
  }
}

const programOf = (rows: readonly ReachRow[], places: readonly number[]): SmallLp => ({
  rows: rows.map(({ coefficients, most }) => ({
    coefficients: places.map((at) => coefficients[at] ?? 0),
    most,
  })),
  costs: places.map(() => 1),
});

function byLabel(powders: readonly PlanPowder[], a: number, b: number): number {
  return (powders[a]?.label ?? "") < (powders[b]?.label ?? "") ? -1 : 1;
}
