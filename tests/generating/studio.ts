import type { Database } from "../../src/db/client.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";
import { fireSteps } from "./fire-steps.ts";
import { librarySteps, type Step } from "./library-steps.ts";
import { roomSteps } from "./room-steps.ts";
import { NothingYet, openWorld } from "./world.ts";

const steps: [string, Step][] = Object.entries({ ...librarySteps, ...fireSteps, ...roomSteps });

/** The names of everything that may be done in a made-up studio. */
export const stepNames = steps.map(([name]) => name);

/** What everything else needs something of. */
const foundations = ["recipe", "recipe", "body", "kiln", "firing", "tile", "lot", "bucket"];

export type Generated = {
  studio: TestStudio;
  /** Steps by name, as often as they were carried out and not refused. */
  done: Map<string, number>;
};

/**
 * A studio made up from a seed: so many steps, drawn from all that people may do, over HTTP as they
 * would. A refusal is an answer too. At the end, at times, somebody who judged is gone.
 *
 * @throws where the app answered that something broke.
 */
export async function generateStudio(
  database: Database,
  { seed, length }: { seed: number; length: number },
): Promise<Generated> {
  const studio = await openTestStudio({}, database);
  await stockShelf(studio);
  const world = openWorld(studio, seed);
  const done = new Map<string, number>();
  const carryOut = async (name: string, step: Step) => {
    try {
      const answered = await step(world);
      if (answered) done.set(name, (done.get(name) ?? 0) + 1);
    } catch (error) {
      if (!(error instanceof NothingYet)) throw error;
    }
  };
  for (const name of foundations) {
    const step = steps.find(([known]) => known === name)?.[1];
    if (step) await carryOut(name, step);
  }
  for (let place = 0; place < length; place += 1) await carryOut(...world.pick(steps));
  if (world.chance(0.3)) {
    const why = { why: "Moved away." };
    if (await world.put("manager", `/people/${studio.ids.reviewer}/removal`, why))
      done.set("person removal", 1);
  }
  if (studio.logged.length > 0) throw new Error(studio.logged.join("\n"));
  return { studio, done };
}
