import { fluxMoles, missOf, missScale, type Restatable, unityOfMix } from "../chem/restating.ts";
import { solveLp } from "./lp.ts";
import { atMost, used } from "./restate-first.ts";
import { leastMissed, type Remaining } from "./restate-mix.ts";
import { amountOf, type RestateGoal, restateModel } from "./restate-model.ts";

/** A search for one recipe of many ends here, at the same place each time. */
const mostNodes = 2000;

type Beside = {
  /** May be taken whatever else is. */
  kept: readonly Restatable[];
  offered: readonly Restatable[];
  /** How many of those offered. */
  most: number;
  /** The amounts of the best mix of all of them, by key, in any one measure. */
  free: Readonly<Record<string, number>>;
  remaining: Remaining;
};

/**
 * The materials to take beside those that are kept, so few that they can be bought: those of the
 * smallest sum of misses, by whole numbers that say which are used. What is found is a choice, to be
 * restated from by itself.
 */
export async function chooseBeside(
  goal: RestateGoal,
  { kept, offered, most, free, remaining }: Beside,
): Promise<Restatable[]> {
  const brought = ({ key, moles }: Restatable) =>
    (free[key] ?? 0) * Object.values(moles).reduce((sum, each) => sum + each, 0);
  const largest = [...offered].sort((a, b) => brought(b) - brought(a)).slice(0, most);
  if (most === 0) return [];
  const known = await leastMissed(goal, [...kept, ...largest], remaining);
  const shelf = [...kept, ...offered];
  const model = restateModel(goal, shelf);
  const room = (material: Restatable) => roomFor(goal, material, known?.sum ?? anySum);
  const answer = await solveLp(
    {
      ...model,
      variables: [
        ...model.variables,
        ...offered.map(({ key }) => ({ name: used(key), most: 1, integer: true })),
      ],
      rows: [...model.rows, ...atMost(offered, most, room)],
    },
    { nodes: mostNodes, seconds: remaining() },
  );
  if (answer.kind === "infeasible" || !answer.values) return largest;
  const { values } = answer;
  const taken = offered.filter(({ key }) => (values[amountOf(key)] ?? 0) > least);
  const found = missedBy(goal, shelf, values);
  return taken.length <= most && found < (known?.sum ?? Infinity) ? taken : largest;
}

/** Below this, for one mole of flux, an amount is the solver's noise. */
const least = 1e-7;

/** No glaze is restated as far off as this. */
const anySum = 20;

/** Nothing that a solver hands over counts before it is reckoned anew. */
function missedBy(
  { wanted, counted }: RestateGoal,
  shelf: readonly Restatable[],
  values: Record<string, number>,
): number {
  const unity = unityOfMix(
    shelf.map(({ key, moles }) => ({ moles, amount: values[amountOf(key)] ?? 0 })),
  );
  if (!unity) return Infinity;
  return counted.reduce((sum, oxide) => sum + missOf(wanted[oxide] ?? 0, unity[oxide] ?? 0), 0);
}

/** The most of a material that a mix no worse than `sum` can hold, for one mole of flux. */
function roomFor({ wanted, counted }: RestateGoal, { moles }: Restatable, sum: number): number {
  const ends = counted.flatMap((oxide) => {
    const each = moles[oxide] ?? 0;
    const want = wanted[oxide] ?? 0;
    return each > 0 ? [(want + missScale(want) * (sum + 1e-5)) / each] : [];
  });
  const fluxed = fluxMoles(moles);
  return Math.min(...ends, fluxed > 0 ? 1 / fluxed : Infinity, 1e6);
}
