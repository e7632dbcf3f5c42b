import { missOf, type Restatable, unityOfMix } from "../chem/restating.ts";
import { type LpModel, type LpRow, solveLp } from "./lp.ts";
import {
  type Amounts,
  amountOf,
  batchWeight,
  keepsBounds,
  type RestateGoal,
  restateModel,
  sumOfMisses,
  worstMiss,
} from "./restate-model.ts";

/** A mix for one mole of flux, with the sum of its misses. */
export type Mix = { amounts: Amounts; sum: number };

/** How far an optimum may move once it is held while the next goal is sought. */
export const held = 2e-9;

/** Below this, for one mole of flux, an amount is float64 noise. */
const noise = 1e-11;

/** How long there is still, seconds. */
export type Remaining = () => number;

/**
 * The best mix of a shelf: the smallest sum of misses, of those the smallest worst miss, and of
 * those the lightest batch. `none` where no mix keeps the bounds or has a flux; `late` where the time
 * was over first.
 *
 * @param within a mix whose misses sum to more is none.
 */
export async function bestMix(
  goal: RestateGoal,
  shelf: readonly Restatable[],
  remaining: Remaining,
  within = Infinity,
): Promise<Mix | "none" | "late"> {
  const model = restateModel(goal, shelf);
  const goals = [sumOfMisses(goal, shelf), { [worstMiss]: 1 }, batchWeight(shelf)];
  const kept: LpRow[] = [];
  let best: Mix | undefined;
  for (const minimise of goals) {
    // Where nothing is missed, nothing is missed worst.
    if (minimise[worstMiss] && best && best.sum < held) continue;
    const step: LpModel = { ...model, rows: [...model.rows, ...kept], minimise };
    const answer = await solveLp(step, { seconds: remaining() });
    if (answer.kind !== "optimal") {
      if (best) return best;
      return answer.kind === "infeasible" ? "none" : "late";
    }
    const mix = checkedMix(goal, shelf, answer.values);
    // What holding an optimum cost in accuracy must not cost the optimum.
    if (mix && (!best || mix.sum <= best.sum + 1e-7)) best = mix;
    if (best && best.sum > within) return "none";
    kept.push({ coefficients: minimise, most: answer.objective + held * (1 + answer.objective) });
  }
  return best ?? "none";
}

/** A mix of the smallest sum of misses, whatever else it is: the first of the goals alone. */
export async function leastMissed(
  goal: RestateGoal,
  shelf: readonly Restatable[],
  remaining: Remaining,
): Promise<Mix | undefined> {
  const answer = await solveLp(restateModel(goal, shelf), { seconds: remaining() });
  return answer.kind === "optimal" ? checkedMix(goal, shelf, answer.values) : undefined;
}

/** The amounts that a solver found, where they hold by our own reckoning. */
export function checkedMix(
  goal: RestateGoal,
  shelf: readonly Restatable[],
  values: Record<string, number>,
): Mix | undefined {
  const amounts: Amounts = {};
  for (const { key } of shelf) {
    const amount = values[amountOf(key)] ?? 0;
    if (amount > noise) amounts[key] = amount;
  }
  const sum = missesSum(goal, shelf, amounts);
  return sum !== undefined && keepsBounds(goal, shelf, amounts) ? { amounts, sum } : undefined;
}

function missesSum(
  goal: RestateGoal,
  shelf: readonly Restatable[],
  amounts: Amounts,
): number | undefined {
  const unity = unityOfMix(shelf.map(({ key, moles }) => ({ moles, amount: amounts[key] ?? 0 })));
  if (!unity) return undefined;
  return goal.counted.reduce(
    (sum, oxide) => sum + missOf(goal.wanted[oxide] ?? 0, unity[oxide] ?? 0),
    0,
  );
}
