import { conditionsOf } from "../chem/restate-conditions.ts";
import { type Miss, missesOf, type Relaxed } from "../chem/restate-reasons.ts";
import {
  basePercents,
  exactWithin,
  type Moles,
  missOf,
  type Restatable,
  unityOfMix,
} from "../chem/restating.ts";
import { listed } from "../chem/shelf-words.ts";
import { bestMixOfFew, materialsOf } from "./restate-few.ts";
import { whyNotHeld } from "./restate-held.ts";
import { bestMix, type Mix, type Remaining } from "./restate-mix.ts";
import type { RestateGoal } from "./restate-model.ts";
import type { TaskRun } from "./solver-tasks.ts";

/** `others` is how many answers of other materials are looked for, three unless said. */
export type RestateInput = RestateGoal & {
  shelf: Restatable[];
  most?: number | undefined;
  others?: number | undefined;
};

/** A base in percent, as decimal strings, and what these printed amounts come to. */
export type RestatedBase = {
  status: "exact" | "nearest";
  base: { key: string; amount: string }[];
  unity: Moles;
  sum: number;
  worst: number;
};

/**
 * `stopped` tells that the search of at most so many materials was cut off: what is there is the best
 * that was found, and not known to be the best there is.
 */
export type Restated =
  | (RestatedBase & {
      kind: "mix";
      misses: Miss[];
      others: RestatedBase[];
      stopped?: "nodes" | "clock";
    })
  | { kind: "none"; because: string }
  | { kind: "late" };

/**
 * The same glaze from the materials that there are, or the nearest there is to it. The shelf is taken
 * in the order of its keys, so that the same shelf gives the same answer however it was sent.
 */
export async function restate(input: RestateInput, run: TaskRun): Promise<Restated> {
  const until = performance.now() + run.seconds * 1000;
  const remaining: Remaining = () => Math.max(0.01, (until - performance.now()) / 1000);
  const shelf = [...input.shelf].sort((a, b) => (a.key < b.key ? -1 : 1));
  const { most = shelf.length } = input;
  if (shelf.length === 0) return { kind: "none", because: "The shelf is empty." };
  if (most < 1) return { kind: "none", because: "No material may be used." };
  const free = await bestMix(input, shelf, remaining);
  if (free === "late") return { kind: "late" };
  if (free === "none") return { kind: "none", because: await whyNone(input, shelf, remaining) };
  const { mix, stopped } = await bestMixOfFew(input, { shelf, most, free, remaining });
  if (mix === "late") return { kind: "late" };
  if (mix === "none") {
    const because = `No mix of at most ${most} of these materials meets the bounds.`;
    return { kind: "none", because };
  }
  const found = printed(input, shelf, mix);
  if (!found) return { kind: "none", because: noFlux };
  run.progress({ kind: "mix", ...found, misses: [], others: [], stopped: "clock" });
  const relaxed =
    found.status === "exact" ? [] : await relaxations(input, shelf, { free, mix, most, remaining });
  const { counted, wanted } = input;
  const { amounts } = mix;
  return {
    kind: "mix",
    ...found,
    misses: missesOf({ wanted, counted, shelf, amounts, unity: found.unity, relaxed }),
    others: await othersThan(input, shelf, { mix, found, most, remaining }),
    ...(stopped ? { stopped } : {}),
  };
}

const noFlux = "No material of the shelf brings a flux, and without one there is no unity formula.";

/** The mix as it is written down, judged by the amounts as written. */
function printed(
  goal: RestateGoal,
  shelf: readonly Restatable[],
  { amounts }: Mix,
): RestatedBase | undefined {
  const taken = shelf.flatMap((material) => {
    const amount = amounts[material.key];
    return amount ? [{ ...material, amount }] : [];
  });
  const base = basePercents(taken);
  const unity = unityOfMix(base.map(({ of, amount }) => ({ ...of, amount: amount.toNumber() })));
  if (!unity) return undefined;
  const misses = goal.counted.map((oxide) => missOf(goal.wanted[oxide] ?? 0, unity[oxide] ?? 0));
  const worst = Math.max(0, ...misses);
  return {
    status: worst <= exactWithin ? "exact" : "nearest",
    base: base.map(({ of, amount }) => ({ key: of.key, amount: amount.toFixed() })),
    unity,
    sum: misses.reduce((all, miss) => all + miss, 0),
    worst,
  };
}

async function whyNone(
  goal: RestateGoal,
  shelf: readonly Restatable[],
  remaining: Remaining,
): Promise<string> {
  const held = goal.held && (await whyNotHeld(goal, shelf, remaining));
  if (held) return held;
  const { wanted, counted } = goal;
  const unbound = await bestMix({ wanted, counted, bounds: {} }, shelf, remaining);
  if (typeof unbound === "string") return noFlux;
  const named = shelf.filter(({ key }) => goal.bounds[key]).map(({ name }) => name);
  const bounds = [
    ...(named.length > 0 ? [`the bounds on ${named.join(", ")}`] : []),
    ...conditionsOf(goal).map(({ called }) => called),
  ];
  return `No mix of these materials meets ${listed(bounds)}.`;
}

/** What the formula would come to without each of the conditions, one at a time. */
async function relaxations(
  goal: RestateGoal,
  shelf: readonly Restatable[],
  { free, mix, most, remaining }: { free: Mix; mix: Mix; most: number; remaining: Remaining },
): Promise<Relaxed[]> {
  const relaxed: Relaxed[] = [];
  const add = (says: string, other: Mix | "none" | "late") => {
    const unity = typeof other === "string" ? undefined : printed(goal, shelf, other)?.unity;
    if (unity) relaxed.push({ says, unity });
  };
  if (free !== mix)
    add(`At most ${most} materials stand in the way: more of them come nearer.`, free);
  for (const { key, name } of shelf) {
    if (!goal.bounds[key] || remaining() < 0.1) continue;
    const { [key]: _, ...bounds } = goal.bounds;
    add(
      `The bound on ${name} stands in the way.`,
      await bestMix({ ...goal, bounds }, shelf, remaining),
    );
  }
  for (const { field, called } of conditionsOf(goal)) {
    const without = await bestMix({ ...goal, [field]: undefined }, shelf, remaining);
    add(`${called[0]?.toUpperCase()}${called.slice(1)} stands in the way.`, without);
  }
  return relaxed;
}

/** Answers of other materials: the best without each of those that the first takes, nearest first. */
async function othersThan(
  { others: wanted = 3, ...goal }: RestateInput,
  shelf: readonly Restatable[],
  {
    mix,
    found,
    most,
    remaining,
  }: { mix: Mix; found: RestatedBase; most: number; remaining: Remaining },
): Promise<RestatedBase[]> {
  const others = new Map<string, RestatedBase>();
  const asked = (key: string) => (goal.bounds[key]?.least ?? 0) > 0;
  const far = Math.max(2 * found.sum, mostApart);
  for (const without of wanted > 0 ? materialsOf(mix) : []) {
    if (asked(without) || remaining() < 0.1) continue;
    const rest = shelf.filter(({ key }) => key !== without);
    const other = await bestMix(goal, rest, remaining, far);
    if (typeof other === "string" || materialsOf(other).length > most) continue;
    const base = printed(goal, shelf, other);
    if (base) others.set(base.base.map(({ key }) => key).join("\n"), base);
  }
  return [...others.values()]
    .sort((a, b) => a.sum - b.sum || a.base.length - b.base.length)
    .slice(0, wanted);
}

/** An answer of other materials is worth a look up to this sum of misses, or twice the first's. */
const mostApart = 0.1;
