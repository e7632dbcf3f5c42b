import { missOf, type Restatable, unityOfMix } from "../chem/restating.ts";
import { type LpRow, solveLp } from "./lp.ts";
import {
  type Amounts,
  amountOf,
  keepsBounds,
  type RestateGoal,
  restateModel,
  worstMiss,
} from "./restate-model.ts";
import { amountsIn, held, keeping, posed, stepsOf, unscaled } from "./restate-steps.ts";

/** A mix for one mole of flux, with the sum of its misses. */
export type Mix = { amounts: Amounts; sum: number };

/** Below this, for one mole of flux, an amount is float64 noise. */
const noise = 1e-11;

/** How long there is still, seconds. */
export type Remaining = () => number;

/**
 * The best mix of a shelf: the smallest sum of misses, of those the smallest worst miss, and of
 * those the smallest figure that is preferred, and the lightest batch. `none` where no mix keeps the bounds or has a flux; `late` where the time
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
  const kept: LpRow[] = [];
  let best: Mix | undefined;
  for (const step of stepsOf(goal, shelf)) {
    // Where nothing is missed, nothing is missed worst.
    if ("minimise" in step && step.minimise[worstMiss] && best && best.sum < held) continue;
    // A mean is sought beside a mix that is known, and there may be none that kept its bounds.
    if ("mean" in step && !best) continue;
    const limited = { ...model, rows: [...model.rows, ...kept] };
    const known = best?.amounts ?? {};
    const answer = await solveLp(posed(limited, step, { goal, shelf, known }), {
      seconds: remaining(),
    });
    if (answer.kind !== "optimal") {
      if (best) return best;
      return answer.kind === "infeasible" ? "none" : "late";
    }
    const { objective } = answer;
    const values = unscaled(answer.values);
    const mix = checkedMix(goal, shelf, values);
    // What holding an optimum cost in accuracy must not cost the optimum.
    if (mix && (!best || mix.sum <= best.sum + 1e-7)) best = mix;
    if (best && best.sum > within && !("early" in step)) return "none";
    kept.push(keeping(step, { objective, amounts: amountsIn(values, shelf) }, shelf));
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
