import { preferredMean } from "../chem/restate-conditions.ts";
import { type Mean, meanOf } from "../chem/restate-means.ts";
import type { Restatable } from "../chem/restating.ts";
import type { LpModel, LpRow } from "./lp.ts";
import {
  type Amounts,
  amountOf,
  batchWeight,
  type RestateGoal,
  sumOfMisses,
  sumOver,
  worstMiss,
} from "./restate-model.ts";

/** One of the goals in turn: a sum that is made smallest, `early` before the misses, or a mean. */
export type Step = { minimise: Record<string, number>; early?: true } | { mean: Mean };

/** How far an optimum may move once it is held while the next goal is sought. */
export const held = 2e-9;

/** The variable that every number of a model is multiplied by where a mean is sought. */
const scale = "scale";

/**
 * The misses of what comes first, the sum of all of them, the worst of them, the figure that is
 * preferred, the weight of the batch.
 */
export function stepsOf(goal: RestateGoal, shelf: readonly Restatable[]): Step[] {
  const mean = preferredMean(goal);
  const first = sumOfMisses(goal, shelf, goal.first ?? []);
  return [
    ...(Object.keys(first).length > 0 ? [{ minimise: first, early: true as const }] : []),
    { minimise: sumOfMisses(goal, shelf) },
    { minimise: { [worstMiss]: 1 } },
    ...(mean ? [{ mean }] : []),
    { minimise: batchWeight(shelf) },
  ];
}

/**
 * A model with a goal to seek in it. The smallest mean is found as a linear one: all of a solution is
 * multiplied by a number of its own, such that what the mean is divided by stays what it is in
 * `known`. What brings nothing that counts has no larger share than in `known`, else it would be
 * taken without end to thin the figure out.
 *
 * Source: A. Charnes & W. W. Cooper, "Programming with linear fractional functionals", Naval Research
 * Logistics Quarterly 9 (1962), 181–186.
 */
export function posed(
  model: LpModel,
  step: Step,
  { goal, shelf, known }: { goal: RestateGoal; shelf: readonly Restatable[]; known: Amounts },
): LpModel {
  if ("minimise" in step) return { ...model, minimise: step.minimise };
  const { above, below } = step.mean;
  const least = model.variables.flatMap(({ name, least = 0 }) =>
    least > 0 ? [{ coefficients: { [name]: 1 }, least }] : [],
  );
  const whole = shelf.reduce((sum, of) => sum + below(of) * (known[of.key] ?? 0), 0);
  return {
    variables: [...model.variables.map(({ least: _, ...each }) => each), { name: scale }],
    rows: [
      ...[...model.rows, ...least].flatMap(multiplied),
      ...noMoreOf(goal, shelf, known),
      { coefficients: sumOver(shelf, below), least: whole, most: whole },
    ],
    minimise: sumOver(shelf, above),
  };
}

function multiplied({ coefficients, least, most }: LpRow): LpRow[] {
  const beyond = (end: number) => ({ ...coefficients, [scale]: -end });
  if (least !== undefined && least === most)
    return [{ coefficients: beyond(least), least: 0, most: 0 }];
  return [
    ...(least === undefined ? [] : [{ coefficients: beyond(least), least: 0 }]),
    ...(most === undefined ? [] : [{ coefficients: beyond(most), most: 0 }]),
  ];
}

function noMoreOf(goal: RestateGoal, shelf: readonly Restatable[], known: Amounts): LpRow[] {
  const all = Object.values(known).reduce((sum, each) => sum + each, 0);
  return shelf
    .filter(({ moles }) => !goal.counted.some((oxide) => moles[oxide]))
    .map(({ key }) => {
      const share = (known[key] ?? 0) / all;
      return {
        coefficients: sumOver(shelf, (each) => (each.key === key ? 1 : 0) - share),
        most: 0,
      };
    });
}

/** The most that a material can be of a scaled solution; undefined where no goal scales it. */
export function roomOfScaled(step: Step, shelf: readonly Restatable[], known: Amounts) {
  if ("minimise" in step) return undefined;
  const { below } = step.mean;
  const whole = shelf.reduce((sum, of) => sum + below(of) * (known[of.key] ?? 0), 0);
  return (of: Restatable) => (below(of) > 0 ? whole / below(of) : 1e3 * whole);
}

/** What a solver found for a goal, for one mole of flux, whatever it was multiplied by. */
export function unscaled(values: Record<string, number>): Record<string, number> {
  const by = values[scale];
  if (by === undefined) return values;
  return Object.fromEntries(Object.entries(values).map(([name, value]) => [name, value / by]));
}

/** Keeps what was reached while the next goal is sought. */
export function keeping(
  step: Step,
  reached: { objective: number; amounts: Amounts },
  shelf: readonly Restatable[],
): LpRow {
  const end = (value: number) => value + held * (1 + Math.abs(value));
  if ("minimise" in step) return { coefficients: step.minimise, most: end(reached.objective) };
  const { above, below } = step.mean;
  const most = end(
    meanOf(
      step.mean,
      shelf.map((of) => ({ of, amount: reached.amounts[of.key] ?? 0 })),
    ),
  );
  return { coefficients: sumOver(shelf, (of) => above(of) - most * below(of)), most: 0 };
}

/** The amounts in what a solver found. */
export const amountsIn = (values: Record<string, number>, shelf: readonly Restatable[]): Amounts =>
  Object.fromEntries(shelf.map(({ key }) => [key, values[amountOf(key)] ?? 0]));
