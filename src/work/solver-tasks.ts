import type { PlanAsked, ShelfPlan } from "../chem/shelf-plan.ts";
import type { ReachAsked, ShelfReach } from "../chem/shelf-reach.ts";
import { type Bought, type BuyingAsked, buy } from "./buying.ts";
import { type Restated, type RestateInput, restate } from "./restate.ts";
import { type RestatedOne, type RestateManyInput, restateMany } from "./restate-many.ts";
import { shelfPlan, shelfReach, type Timed } from "./shelf-plan.ts";

/** What a task is told beside its input: how long it may take, and where to tell how far it is. */
export type TaskRun = {
  /** A guard: the task should have an answer before, and is ended with its thread soon after. */
  seconds: number;
  /** The best answer so far, for whoever waits; it is what is left where the clock ends the task. */
  progress: (best: unknown) => void;
};

/** What the solver's thread can do: kind → what goes in and what comes out, plain data both. */
export type SolverTasks = {
  restate: { input: RestateInput; output: Restated };
  "restate-many": { input: RestateManyInput; output: RestatedOne[] };
  "shelf-plan": { input: PlanAsked; output: Timed<ShelfPlan> };
  "shelf-reach": { input: ReachAsked; output: Timed<ShelfReach> };
  buying: { input: BuyingAsked; output: Bought };
};

export type TaskKind = keyof SolverTasks;

type TaskTable = {
  [Kind in TaskKind]: (
    input: SolverTasks[Kind]["input"],
    run: TaskRun,
  ) => Promise<SolverTasks[Kind]["output"]>;
};

/** Each kind of task by its function. */
export const solverTasks: TaskTable = {
  restate,
  "restate-many": restateMany,
  "shelf-plan": shelfPlan,
  "shelf-reach": shelfReach,
  buying: buy,
};
