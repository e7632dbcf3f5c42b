import type { ChemistryRequest } from "./chemistry-types.ts";
import { toFloat } from "./float.ts";
import { baseTotal, type Part } from "./lines.ts";
import { type Oxide, oxides } from "./oxides.ts";
import { type Powder, powderOf } from "./powder.ts";

/** What a k = 2 move of one unknown does to the batch, in parts by weight. */
export type Pull = {
  readonly masses: Float64Array;
  readonly loss: number;
  readonly weight: number;
};

/** One distinct analysis with all that is weighed of it, or one ready-made product without any. */
export type Ingredient = {
  readonly name: string;
  /** Index of its first line in the request. */
  readonly line: number;
  readonly powder: Powder | null;
  readonly givesOff: readonly string[];
  amount: number;
};

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

function pullOf(
  powder: Powder,
  percents: readonly number[],
  share: number,
  loss: number,
  weight: number,
) {
  const masses = new Float64Array(oxides.length);
  for (let index = 0; index < powder.places.length; index++) {
    masses[powder.places[index] ?? 0] = share * (percents[index] ?? 0);
  }
  return { masses, loss, weight };
}

/**
 * A scale's step is uniform, half a step either way: a standard uncertainty of half a step over
 * √3, and twice that at k = 2. Worked number: a 0.1 g scale weighs to ± 0.058 g.
 */
export const weighingPlusMinus = (scaleGrams: number): number => scaleGrams / Math.sqrt(3);

function weighings(
  { lines, grams, scaleGrams }: ChemistryRequest,
  ingredients: readonly Ingredient[],
  pulls: Pull[],
): void {
  if (!grams || !scaleGrams) return;
  const partsPerGram = toFloat(baseTotal(lines)) / toFloat(grams);
  const plusMinus = weighingPlusMinus(toFloat(scaleGrams)) * partsPerGram;
  const share = plusMinus / 100;
  for (const { line, powder } of ingredients) {
    const pull = powder
      ? pullOf(powder, powder.percent, share, share * powder.loss, plusMinus)
      : { masses: new Float64Array(oxides.length), loss: 0, weight: plusMinus };
    const key = lines[line]?.key;
    const mine = lines.filter((each) => each.key === key && !each.amount.isZero());
    for (const part of parts) {
      if (mine.some((each) => each.part === part)) pulls.push(pull);
    }
  }
}

const parts: readonly Part[] = ["base", "addition"];
