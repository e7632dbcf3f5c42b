import loadHighs, { type Highs } from "highs";
import { lpText, termsOf } from "./lp-text.ts";

/** A variable lies between `least` (0 unless said) and `most` (no end unless said). */
export type LpVariable = { name: string; least?: number; most?: number; integer?: boolean };

/** Σ coefficient × variable lies between `least` and `most`; an end that is not said is not there. */
export type LpRow = { coefficients: Record<string, number>; least?: number; most?: number };

/** A linear model: what may be chosen, what has to hold, and what is to be as small as can be. */
export type LpModel = { variables: LpVariable[]; rows: LpRow[]; minimise: Record<string, number> };

/**
 * `stopped` comes before a proof, by node count or clock; its values, where there are some, have to
 * be checked before they count. `duals` are there for a model without whole numbers: what the
 * objective gains when the end of each row that stands in the way moves up by one.
 */
export type LpAnswer =
  | { kind: "optimal"; values: Record<string, number>; objective: number; duals?: number[] }
  | { kind: "infeasible" }
  | { kind: "stopped"; values?: Record<string, number>; objective?: number };

/** `nodes` ends a search at the same place every time, `seconds` is only a guard. */
export type LpLimits = { nodes?: number | undefined; seconds?: number | undefined };

// The package's types are of its CommonJS build, where this is a property; we import the other one.
const load = loadHighs as unknown as typeof loadHighs.default;

/** Once a thread: starting it takes longer than most models do. */
let loaded: Promise<Highs> | undefined;

/** How far a row or a bound may be missed, in its own unit. */
const tolerance = 1e-9;

const options = {
  output_flag: false,
  random_seed: 0,
  primal_feasibility_tolerance: tolerance,
  dual_feasibility_tolerance: tolerance,
  mip_feasibility_tolerance: tolerance,
  mip_rel_gap: 0,
  mip_abs_gap: tolerance,
};

/**
 * Solves a linear or mixed-integer model with HiGHS. Equal input gives equal output: the build has
 * one thread, the seed is fixed, variables and rows keep their order. A model whose objective has no
 * end, or that the solver cannot read, is a bug and is thrown.
 */
export async function solveLp(model: LpModel, limits: LpLimits = {}): Promise<LpAnswer> {
  const alone = model.rows.filter((row) => termsOf(row).length === 0);
  if (alone.some(({ least = 0, most = 0 }) => least > tolerance || most < -tolerance))
    return { kind: "infeasible" };
  if (model.variables.length === 0)
    return { kind: "optimal", values: {}, objective: 0, duals: model.rows.map(() => 0) };
  loaded ??= load();
  const highs = await loaded;
  const answer = run(highs, model, limits, "choose");
  // Presolve may not tell these two apart; without it the solver has to.
  return answer === "infeasible or unbounded" ? definite(run(highs, model, limits, "off")) : answer;
}

function definite(answer: ReturnType<typeof run>): LpAnswer {
  if (answer === "infeasible or unbounded") throw new Error("the solver cannot class this model");
  return answer;
}

function run(
  highs: Highs,
  model: LpModel,
  { nodes, seconds }: LpLimits,
  presolve: "choose" | "off",
): LpAnswer | "infeasible or unbounded" {
  const { text, rowOf } = lpText(model);
  const { modelStatus } = highs.constants;
  return highs.withModel(
    { format: "lp", data: text },
    (solving): LpAnswer | "infeasible or unbounded" => {
      solving.options.set({ ...options, presolve });
      if (nodes !== undefined) solving.options.set("mip_max_nodes", nodes);
      if (seconds !== undefined) solving.options.set("time_limit", seconds);
      solving.run();
      const status = solving.getModelStatus();
      switch (status) {
        case modelStatus.optimal:
        case modelStatus.empty: {
          const whole = model.variables.some(({ integer }) => integer);
          const { colValue, rowDual } = solving.getSolution();
          return {
            kind: "optimal",
            values: valuesOf(model, colValue),
            objective: solving.getObjectiveValue(),
            ...(whole ? {} : { duals: dualsOf(model, rowOf, rowDual) }),
          };
        }
        case modelStatus.infeasible:
          return { kind: "infeasible" };
        case modelStatus.unboundedOrInfeasible:
          return "infeasible or unbounded";
        case modelStatus.timeLimit:
        case modelStatus.iterationLimit:
        case modelStatus.solutionLimit:
        case modelStatus.unknown: {
          if (
            solving.info.get("primal_solution_status") !== highs.constants.solutionStatus.feasible
          )
            return { kind: "stopped" };
          const values = valuesOf(model, solving.getSolution().colValue);
          return { kind: "stopped", values, objective: solving.getObjectiveValue() };
        }
        default:
          throw new Error(`the solver answered ${status} to a model of ours`);
      }
    },
  );
}

const valuesOf = ({ variables }: LpModel, found: ArrayLike<number>): Record<string, number> =>
  Object.fromEntries(variables.map(({ name }, at) => [name, found[at] ?? 0]));

function dualsOf({ rows }: LpModel, rowOf: readonly number[], found: ArrayLike<number>): number[] {
  const duals = rows.map(() => 0);
  rowOf.forEach((row, at) => {
    duals[row] = (duals[row] ?? 0) + (found[at] ?? 0);
  });
  return duals;
}
