import type { ChemistryRequest } from "./chemistry-types.ts";
import { toFloat } from "./float.ts";
import { type Oxide, oxides } from "./oxides.ts";
import { powderOf } from "./powder.ts";
import { type Ingredient, type Pull, pullOf, weighings } from "./pulls.ts";

/**
 * A batch taken apart: what stays as glass, oxide by oxide, and what its unknowns do to it.
 *
 * Everything is in parts by weight and float64. `masses` and `massVariance` are indexed by the
 * place of an oxide in the order of display; `present` lists the places in use. Each listed oxide
 * of each analysis is an unknown that moves one mass only, so those add up in `massVariance`
 * (expanded, squared), with their effect on loss and rest in `lossVariance` and `restVariance`.
 * Unknowns that move several masses at once (a calcined analysis's loss, each weighing) are `pulls`.
 */
export type Melt = {
  readonly ingredients: readonly Ingredient[];
  readonly present: readonly number[];
  readonly masses: Float64Array;
  readonly massVariance: Float64Array;
  readonly glass: number;
  readonly loss: number;
  readonly lossVariance: number;
  readonly restVariance: number;
  readonly weight: number;
  readonly pulls: readonly Pull[];
};

/** Takes a batch apart. Lines without an analysis weigh, but are neither glass nor loss. */
export function meltOf(request: ChemistryRequest): Melt {
  const ingredients = gather(request);
  const masses = new Float64Array(oxides.length);
  const massVariance = new Float64Array(oxides.length);
  const inUse = new Uint8Array(oxides.length);
  const pulls: Pull[] = [];
  let loss = 0;
  let weight = 0;
  let lossVariance = 0;
  let restVariance = 0;
  for (const { powder, amount } of ingredients) {
    weight += amount;
    if (!powder) continue;
    const share = amount / 100;
    let own = 0;
    for (let index = 0; index < powder.places.length; index++) {
      const place = powder.places[index] ?? 0;
      const spread = share * (powder.ownPlusMinus[index] ?? 0);
      masses[place] = (masses[place] ?? 0) + share * (powder.percent[index] ?? 0);
      massVariance[place] = (massVariance[place] ?? 0) + spread * spread;
      inUse[place] = 1;
      own += spread * spread;
    }
    loss += share * powder.loss;
    const lossSpread = share * powder.lossPlusMinus;
    if (powder.pullOfLoss) pulls.push(pullOf(powder, powder.pullOfLoss, share, lossSpread, 0));
    else lossVariance += powder.lossIs === "rest" ? own : lossSpread * lossSpread;
    if (powder.lossIs !== "rest") restVariance += own;
    if (powder.lossIs === "given" && !powder.pullOfLoss) restVariance += lossSpread * lossSpread;
  }
  const present: number[] = [];
  let glass = 0;
  for (let place = 0; place < inUse.length; place++) {
    if (inUse[place]) present.push(place);
    glass += masses[place] ?? 0;
  }
  weighings(request, ingredients, pulls);
  return {
    ingredients,
    present,
    masses,
    massVariance,
    glass,
    loss,
    lossVariance,
    restVariance,
    weight,
    pulls,
  };
}

/** The oxide at a place in the order of display. */
export const oxideAt = (place: number): Oxide => oxides[place] as Oxide;

function gather({ lines }: ChemistryRequest): Ingredient[] {
  const byKey = new Map<string, Ingredient>();
  for (let line = 0; line < lines.length; line++) {
    const { key, name, analysis, amount } = lines[line] as (typeof lines)[number];
    const weighed = toFloat(amount);
    if (weighed === 0) continue;
    const known = byKey.get(key);
    if (known) {
      known.amount += weighed;
      continue;
    }
    const powder = analysis && powderOf(analysis);
    const givesOff = analysis?.givesOff ?? [];
    byKey.set(key, { name, line, powder, givesOff, amount: weighed });
  }
  return [...byKey.values()];
}
