import { fluxMoles, type Restatable } from "../chem/restating.ts";
import { type LpRow, solveLp } from "./lp.ts";
import { bestMix, checkedMix, leastMissed, type Mix, type Remaining } from "./restate-mix.ts";
import {
  amountOf,
  batchWeight,
  type RestateGoal,
  restateModel,
  worstMiss,
} from "./restate-model.ts";

/** A search that has not ended by then is cut off, at the same place each time. */
export const mostNodes = 20_000;

/** Whether a material is used, 0 or 1. */
export const used = (key: string) => `used ${key}`;

export type Search = { shelf: Restatable[]; most: number; remaining: Remaining };

/** A mix to begin with: of the largest parts of the free one, or else the one richest in flux. */
export async function firstOfFew(
  goal: RestateGoal,
  { shelf, needed, most, free, remaining }: Search & { needed: Restatable[]; free: Mix },
): Promise<Mix | "none" | "late"> {
  const moles = ({ key, moles }: Restatable) =>
    (free.amounts[key] ?? 0) * Object.values(moles).reduce((sum, each) => sum + each, 0);
  const largest = shelf
    .filter((material) => !needed.includes(material) && free.amounts[material.key])
    .sort((a, b) => moles(b) - moles(a));
  const few = [...needed, ...largest].slice(0, most);
  const greedy = await bestMix(goal, few, remaining);
  if (greedy === "late") return greedy;
  if (greedy !== "none") return exchange(goal, { shelf, needed, few, most, remaining }, greedy);
  // In shares of the base no amount passes 1, so that no bound has to be known beforehand.
  const { rows } = restateModel({ ...goal, counted: [] }, shelf);
  const answer = await solveLp(
    {
      variables: [
        ...shelf.map(({ key }) => ({ name: amountOf(key) })),
        { name: worstMiss },
        ...shelf.map(({ key }) => ({ name: used(key), most: 1, integer: true })),
      ],
      rows: [
        { coefficients: batchWeight(shelf), least: 1, most: 1 },
        ...rows.slice(1),
        ...atMost(shelf, most, () => 1),
      ],
      minimise: Object.fromEntries(
        shelf.map(({ key, moles: each }) => [amountOf(key), -fluxMoles(each)]),
      ),
    },
    { nodes: mostNodes, seconds: remaining() },
  );
  if (answer.kind === "infeasible") return "none";
  if (!answer.values) return "late";
  const richest = checkedMix(goal, shelf, answer.values);
  return richest ? bestMix(goal, taking(shelf, richest), remaining) : "none";
}

/**
 * Exchanges one material for another as long as that gains, since the search is the shorter the
 * better the mix that it begins with.
 */
async function exchange(
  goal: RestateGoal,
  { shelf, needed, few, most, remaining }: Search & { needed: Restatable[]; few: Restatable[] },
  first: Mix,
): Promise<Mix> {
  let [best, chosen] = [first, few];
  for (;;) {
    let better: { mix: Mix; chosen: Restatable[] } | undefined;
    for (const out of [undefined, ...chosen.filter((each) => !needed.includes(each))]) {
      if (out === undefined && chosen.length >= most) continue;
      const rest = chosen.filter((each) => each !== out);
      for (const one of shelf.filter((each) => !chosen.includes(each))) {
        if (remaining() < 0.5) return best;
        const mix = await leastMissed(goal, [...rest, one], remaining);
        if (mix && mix.sum < (better?.mix.sum ?? best.sum) - 1e-9)
          better = { mix, chosen: [...rest, one] };
      }
    }
    if (!better) break;
    [best, chosen] = [better.mix, better.chosen];
  }
  const polished = await bestMix(goal, taking(shelf, best), remaining);
  return typeof polished === "string" ? best : polished;
}

/** Those of a shelf that a mix takes. */
export const taking = (shelf: readonly Restatable[], mix: Mix): Restatable[] =>
  shelf.filter(({ key }) => mix.amounts[key]);

/** A material is used or it is not, and so many are. */
export const atMost = (
  shelf: readonly Restatable[],
  most: number,
  room: (material: Restatable) => number,
): LpRow[] => [
  { coefficients: Object.fromEntries(shelf.map(({ key }) => [used(key), 1])), most },
  ...shelf.map((material) => ({
    coefficients: { [amountOf(material.key)]: 1, [used(material.key)]: -room(material) },
    most: 0,
  })),
];
