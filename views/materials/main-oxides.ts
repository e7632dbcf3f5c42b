import { type Analysis, powderOf } from "../../src/chem/analysis.ts";
import type { Oxide } from "../../src/chem/oxides.ts";

/** An oxide with its share of the powder as weighed, percent by weight. */
export type MainOxide = { oxide: Oxide; percent: number };

/**
 * What a powder mainly brings: its largest oxides, three at most, each with 5 % or more of the
 * powder as weighed; the largest one in any case. Feldspar of K2O 10, Al2O3 18, SiO2 66, Na2O 3 is
 * SiO2, Al2O3, K2O.
 */
export function mainOxides(analysis: Analysis): MainOxide[] {
  const { listed, percent } = powderOf(analysis);
  return listed
    .map((oxide, place) => ({ oxide, percent: percent[place] ?? 0 }))
    .sort((a, b) => b.percent - a.percent)
    .filter((each, place) => place === 0 || (place < 3 && each.percent >= 5));
}
