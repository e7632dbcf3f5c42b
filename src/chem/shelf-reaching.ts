import {
  type Bits,
  bit,
  bitsOf,
  count,
  isIn,
  meet,
  noBits,
  placesOf,
  union,
  without,
} from "./shelf-bits.ts";
import type { PlanPowder } from "./shelf-plan-types.ts";
import { type ReachRow, reachRows } from "./shelf-tolerance.ts";
import { rowTolerance, solveSmall } from "./small-lp.ts";

/** Counts the work of a search, and ends it by throwing `OutOfSteps`: the same way every time. */
export type Steps = { left: number; readonly tick: () => void };

/** A step is about what looking through so many known sets takes. */
const setsOfStep = 50;

/** What a linear program counts: the more, the larger its tableau is. */
const stepsOfProgram = (rows: number, columns: number): number =>
  4 + Math.ceil((rows * columns) / 40);

/**
 * What is known of which sets of powders reach one recipe. What a set reaches every larger one does,
 * so two lists say all that was ever found out: small sets that reach it, and clauses, sets of which
 * every shelf that reaches it holds at least one. A clause comes from the proof that a mix is
 * impossible: only powders that weigh against that proof can end it.
 */
export type Reaching = {
  /** Whether this very set reaches it. */
  readonly reaches: (shelf: Bits) => boolean;
  /**
   * The powders to add to `taken`, no more than `most` and all of `allowed`, so that it is reached;
   * null where there are none. The answer holds `taken` as far as it is used.
   */
  readonly extend: (taken: Bits, allowed: Bits, most: number) => Bits | null;
};

export function reachingOf(
  wanted: readonly number[] | null,
  powders: readonly PlanPowder[],
  within: number,
  steps: Steps,
): Reaching {
  if (!wanted) return { reaches: () => false, extend: () => null };
  const rows = reachRows(wanted, powders, within);
  const everything = bitsOf(powders.keys());
  const reaching: Bits[] = [];
  const clauses: { of: Bits; size: number }[] = [];

  /** The part of a set that reaches it, or the clause that the set does not meet. */
  function mix(shelf: Bits): { reached: Bits } | { clause: Bits } {
    const places = placesOf(shelf);
    steps.left -= stepsOfProgram(rows.length, places.length);
    steps.tick();
    const answer = solveSmall({
      rows: rows.map(({ coefficients, most }) => ({
        coefficients: places.map((at) => coefficients[at] ?? 0),
        most,
      })),
      costs: places.map(() => 1),
    });
    if (answer.kind === "best")
      return { reached: bitsOf(places.filter((_, column) => (answer.x[column] ?? 0) > 0)) };
    const weights = answer.kind === "none" ? answer.weights : undefined;
    return {
      clause: weights
        ? endsOf(weights, rows, without(everything, shelf))
        : without(everything, shelf),
    };
  }

  /** Makes a clause as small as can be: powders that do not help the rest of the shelf leave it. */
  function learn(clause: Bits): Bits {
    let kept = clause;
    for (const at of placesOf(clause)) {
      if (!meet(kept, bit(at))) continue;
      const found = mix(union(without(everything, kept), bit(at)));
      if ("clause" in found) kept = found.clause;
      else addReaching(found.reached);
    }
    const size = count(kept);
    const place = clauses.findIndex((each) => each.size > size);
    clauses.splice(place < 0 ? clauses.length : place, 0, { of: kept, size });
    return kept;
  }

  function addReaching(found: Bits) {
    if (!reaching.some((known) => isIn(known, found))) reaching.push(found);
  }

  const knownReached = (shelf: Bits) => reaching.some((known) => isIn(known, shelf));
  const knownMissed = (shelf: Bits) => clauses.some(({ of }) => !meet(of, shelf));

  /** What one look at all that is known counts. */
  const stepsOfLook = () => 1 + Math.floor((clauses.length + reaching.length) / setsOfStep);

  function reaches(shelf: Bits): boolean {
    steps.left -= stepsOfLook();
    steps.tick();
    if (knownReached(shelf)) return true;
    if (knownMissed(shelf)) return false;
    const found = mix(shelf);
    if ("reached" in found) addReaching(found.reached);
    else learn(found.clause);
    return "reached" in found;
  }

  function extend(taken: Bits, allowed: Bits, most: number): Bits | null {
    steps.left -= stepsOfLook();
    steps.tick();
    for (const known of reaching) {
      if (isIn(known, allowed) && count(without(known, taken)) <= most) return known;
    }
    return search(taken, allowed, most);
  }

  /** Takes a powder of an unmet clause, then does without it; what is left open is learnt. */
  function search(taken: Bits, allowed: Bits, most: number): Bits | null {
    steps.left -= stepsOfLook();
    steps.tick();
    const open = openClause(taken, allowed, most);
    if (open === "out of reach") return null;
    if (open === "none") {
      if (reaches(taken)) return reaching.find((known) => isIn(known, taken)) ?? null;
      return search(taken, allowed, most);
    }
    let still = allowed;
    for (const at of placesOf(open)) {
      const found = search(union(taken, bit(at)), still, most - 1);
      if (found) return found;
      still = without(still, bit(at));
    }
    return null;
  }

  /** The smallest unmet clause; out of reach where unmet ones that share no powder are too many. */
  function openClause(taken: Bits, allowed: Bits, most: number): Bits | "none" | "out of reach" {
    let first: Bits | undefined;
    let smallest = Number.POSITIVE_INFINITY;
    let spoken = noBits;
    let apart = 0;
    for (const { of } of clauses) {
      if (meet(of, taken)) continue;
      const low = of.low & allowed.low;
      const high = of.high & allowed.high;
      const here = { low, high };
      const size = count(here);
      if (size === 0) return "out of reach";
      if (size < smallest) [first, smallest] = [here, size];
      if (meet(spoken, here)) continue;
      spoken = union(spoken, here);
      apart += 1;
      if (apart > most) return "out of reach";
    }
    return first ?? "none";
  }

  return { reaches, extend };
}

/** The powders that weigh against a proof: without one of them it stands. */
function endsOf(weights: Float64Array, rows: readonly ReachRow[], others: Bits): Bits {
  return bitsOf(
    placesOf(others).filter((at) => {
      let sum = 0;
      for (let row = 0; row < rows.length; row++) {
        sum += (weights[row] ?? 0) * (rows[row]?.coefficients[at] ?? 0);
      }
      return sum < -rowTolerance / 100;
    }),
  );
}
