import { type PlanAsked, planShelf, type ShelfPlan } from "../chem/shelf-plan.ts";
import { type ReachAsked, reachOfShelf, type ShelfReach } from "../chem/shelf-reach.ts";
import type { TaskRun } from "./solver-tasks.ts";

/** With how long it took, in seconds. */
export type Timed<Answer> = Answer & { seconds: number };

/** What a search may spend for each second of its guard: it ends well before the clock would end it. */
const stepsPerSecond = 500_000;

/** The part of the guard after which nothing new is begun. */
const shareOfGuard = 0.9;

/** The search for a shelf. It stops by its own count; the clock is only a guard. */
export async function shelfPlan(asked: PlanAsked, run: TaskRun): Promise<Timed<ShelfPlan>> {
  const clock = startClock(run);
  const steps = Math.round(run.seconds * stepsPerSecond * (asked.curve ? 0.5 : 1));
  const plan = planShelf(asked, { steps, isLate: clock.isLate });
  return { ...plan, seconds: clock.seconds() };
}

/** How far a shelf goes, by the same inner test. */
export async function shelfReach(asked: ReachAsked, run: TaskRun): Promise<Timed<ShelfReach>> {
  const clock = startClock(run);
  return { ...reachOfShelf(asked, clock.isLate), seconds: clock.seconds() };
}

function startClock({ seconds }: TaskRun) {
  const began = performance.now();
  const gone = () => (performance.now() - began) / 1000;
  return {
    isLate: () => gone() > seconds * shareOfGuard,
    seconds: () => Math.round(gone() * 1000) / 1000,
  };
}
