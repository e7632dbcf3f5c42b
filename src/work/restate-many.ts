import type { Oxide } from "../chem/oxides.ts";
import type { Moles, Restatable } from "../chem/restating.ts";
import { type Restated, restate } from "./restate.ts";
import { chooseBeside } from "./restate-beside.ts";
import type { TaskRun } from "./solver-tasks.ts";

/** One of many recipes: what is wanted, and the keys of the powders that it keeps. */
export type OneOfMany = { wanted: Moles; counted: Oxide[]; kept: string[] };

/** All by their keys on one shelf; `most` is how many of those offered a recipe may take anew. */
export type RestateManyInput = {
  shelf: Restatable[];
  offered: string[];
  most: number;
  recipes: OneOfMany[];
};

/** `nearer` tells that more new powders than were allowed would come nearer. */
export type RestatedOne = Restated & { nearer?: boolean | undefined };

/**
 * Many recipes restated one after another, each from the powders that it keeps and a few of those
 * that are offered. Equal input gives equal output, but for those that the clock left no time for:
 * they are `late`.
 *
 * @returns an answer for each, in their order.
 */
export async function restateMany(
  { shelf, offered, most, recipes }: RestateManyInput,
  run: TaskRun,
): Promise<RestatedOne[]> {
  const until = performance.now() + run.seconds * 1000;
  const remaining = () => (until - performance.now()) / 1000;
  const byKey = new Map(shelf.map((material) => [material.key, material]));
  const of = (keys: readonly string[]) => keys.flatMap((key) => byKey.get(key) ?? []);
  const done: RestatedOne[] = recipes.map(() => ({ kind: "late" }));
  for (const [at, { kept, ...wanted }] of recipes.entries()) {
    if (remaining() <= 0) break;
    const others = offered.filter((key) => !kept.includes(key));
    done[at] = await restateOne(wanted, { kept: of(kept), offered: of(others), most, remaining });
    run.progress([...done]);
  }
  return done;
}

type OnShelf = {
  kept: Restatable[];
  offered: Restatable[];
  most: number;
  remaining: () => number;
};

async function restateOne(
  wanted: Pick<OneOfMany, "wanted" | "counted">,
  { kept, offered, most, remaining }: OnShelf,
): Promise<RestatedOne> {
  const goal = { ...wanted, bounds: {} };
  const from = (shelf: Restatable[]): Promise<Restated> =>
    restate({ ...goal, shelf, others: 0 }, { seconds: remaining(), progress: () => {} });
  const all = await from([...kept, ...offered]);
  if (all.kind !== "mix") return all;
  const isNew = ({ key }: { key: string }) => offered.some((material) => material.key === key);
  if (all.base.filter(isNew).length <= most) return all;
  const free = Object.fromEntries(all.base.map(({ key, amount }) => [key, Number(amount)]));
  const chosen = await chooseBeside(goal, {
    ...{ kept, offered, most, free },
    remaining: () => Math.max(0.01, remaining()),
  });
  const few = await from([...kept, ...chosen]);
  return few.kind === "mix" ? { ...few, nearer: all.sum < few.sum - 1e-6 } : few;
}
