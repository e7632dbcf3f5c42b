import { fluxMoles, missScale, type Restatable } from "../chem/restating.ts";
import { type LpModel, type LpRow, solveLp } from "./lp.ts";
import { atMost, firstOfFew, mostNodes, type Search, taking, used } from "./restate-first.ts";
import { bestMix, checkedMix, type Mix, type Remaining } from "./restate-mix.ts";
import { missedAnyway, type RestateGoal, restateModel, sumOfMisses } from "./restate-model.ts";
import { amountsIn, keeping, posed, roomOfScaled, stepsOf, unscaled } from "./restate-steps.ts";

/** `stopped` tells that a better mix of as few may exist: the search was not finished. */
export type FewMix = { mix: Mix | "none" | "late"; stopped?: "nodes" | "clock" };

/** Which materials a mix takes. */
export const materialsOf = ({ amounts }: Mix): string[] => Object.keys(amounts);

/**
 * The best mix of at most `most` materials, with the same goals in turn: whole numbers say which
 * materials are used, and each amount is at most what the best mix known so far leaves room for.
 * What brings neither a flux nor an oxide that counts is not taken, unless a bound asks for it.
 *
 * @param free the best mix of any number, which is the answer where it is of so few already.
 */
export async function bestMixOfFew(
  goal: RestateGoal,
  {
    shelf,
    most,
    free,
    remaining,
  }: {
    shelf: readonly Restatable[];
    most: number;
    free: Mix;
    remaining: Remaining;
  },
): Promise<FewMix> {
  if (materialsOf(free).length <= most) return { mix: free };
  const needed = shelf.filter(({ key }) => (goal.bounds[key]?.least ?? 0) > 0);
  if (needed.length > most) return { mix: "none" };
  const useful = shelf.filter(
    (material) => needed.includes(material) || goal.counted.some((oxide) => material.moles[oxide]),
  );
  const first = await firstOfFew(goal, { shelf: useful, needed, most, free, remaining });
  if (first === "none" || first === "late") return { mix: first };
  return improve(goal, { shelf: useful, most, first, remaining });
}

async function improve(
  goal: RestateGoal,
  { shelf, most, first, remaining }: Search & { first: Mix },
): Promise<FewMix> {
  const model = restateModel(goal, shelf);
  const open = missedAnyway(goal, shelf).reduce((rest, miss) => rest - miss, first.sum);
  const limited: LpModel = {
    ...model,
    rows: [
      ...model.rows,
      { coefficients: sumOfMisses(goal, shelf), most: open * (1 + 1e-6) + 1e-6 },
    ],
  };
  let best = first;
  const kept: LpRow[] = [];
  for (const step of stepsOf(goal, shelf)) {
    const seconds = remaining();
    const known = best.amounts;
    const whole = { ...limited, rows: [...limited.rows, ...kept] };
    const room = roomOfScaled(step, shelf, known) ?? ((material) => roomFor(goal, material, open));
    const answer = await solveLp(
      ofFew(posed(whole, step, { goal, shelf, known }), { shelf, most, room }),
      { nodes: mostNodes, seconds },
    );
    const values =
      answer.kind === "infeasible" || !answer.values ? undefined : unscaled(answer.values);
    const mix = values && checkedMix(goal, shelf, values);
    if (mix && materialsOf(mix).length <= most) {
      const clean = await bestMix(goal, taking(shelf, mix), remaining);
      if (typeof clean !== "string" && clean.sum <= best.sum + 1e-7) best = clean;
    }
    if (answer.kind === "stopped")
      return { mix: best, stopped: remaining() <= 0.05 ? "clock" : "nodes" };
    if (answer.kind === "infeasible" || !values) break;
    const reached = { objective: answer.objective, amounts: amountsIn(values, shelf) };
    kept.push(keeping(step, reached, shelf));
  }
  return { mix: best };
}

type Few = { shelf: Restatable[]; most: number; room: (material: Restatable) => number };

/** The same model with whole numbers that say which materials are used, no more than `most`. */
const ofFew = (model: LpModel, { shelf, most, room }: Few): LpModel => ({
  ...model,
  variables: [
    ...model.variables,
    ...shelf.map(({ key }) => ({ name: used(key), most: 1, integer: true })),
  ],
  rows: [...model.rows, ...atMost(shelf, most, room)],
});

/**
 * The most of a material that any mix no worse than `sum` can hold: its fluxes alone may not pass 1,
 * nor any oxide of it what is wanted and the whole sum of the misses together.
 */
function roomFor(goal: RestateGoal, { moles }: Restatable, sum: number): number {
  const ends = goal.counted.flatMap((oxide) => {
    const each = moles[oxide] ?? 0;
    const wanted = goal.wanted[oxide] ?? 0;
    return each > 0 ? [(wanted + missScale(wanted) * (sum + 1e-5)) / each] : [];
  });
  const fluxed = fluxMoles(moles);
  return Math.min(...ends, fluxed > 0 ? 1 / fluxed : Infinity, 1e6);
}
