import type { ChemistryRequest } from "./chemistry-types.ts";
import { toFloat } from "./float.ts";
import { baseTotal, type Part } from "./lines.ts";
import { oxides } from "./oxides.ts";
import type { Powder } from "./powder.ts";

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

/** What an unknown does that moves several masses of one powder together. */
export function pullOf(
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

/** Adds one pull for each weighing: each analysis once in the base and once among the additions. */
export function weighings(
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
