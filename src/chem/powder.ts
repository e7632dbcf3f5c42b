import type { Analysis, Figure } from "./analysis.ts";
import { toFloat } from "./float.ts";
import { type Oxide, oxidePlace } from "./oxides.ts";

/**
 * A powder as weighed, in float64 weight percent. All ± are expanded (k = 2).
 *
 * The independent unknowns behind it are each listed oxide (`ownPlusMinus`: what its ± does to the
 * percent as weighed) and, where given, the loss. How the loss hangs together with them:
 * - `given`: an unknown of its own with `lossPlusMinus`;
 * - `rest`: 100 − Σ oxides, so it moves against every oxide, and nothing is unaccounted;
 * - `none`: oxides pass 100 and no loss is given, so it is 0.
 * `pullOfLoss` is there for a calcined analysis: what `lossPlusMinus` does to each percent, since
 * every oxide is multiplied by (100 − loss)/100.
 */
export type Powder = {
  readonly listed: readonly Oxide[];
  /** Place of each listed oxide in the order of display. */
  readonly places: readonly number[];
  readonly percent: readonly number[];
  readonly ownPlusMinus: readonly number[];
  readonly pullOfLoss: readonly number[] | null;
  readonly loss: number;
  readonly lossPlusMinus: number;
  readonly lossIs: "given" | "rest" | "none";
  /** 100 − oxides − loss: neither glass nor loss; below 0 where the analysis passes 100. */
  readonly unaccounted: number;
  /** Listed oxides whose ± was assumed, and whether that of the given loss was. */
  readonly assumed: readonly Oxide[];
  readonly lossPlusMinusAssumed: boolean;
};

/**
 * The ± assumed for a figure that came without one (k = 2): 3 % of it, at least 0.1, at most
 * 0.1 + 0.3 × (100 − percent), in weight percent. Common practice, no source.
 * Worked numbers: 29.3 gets 0.879; 2.1 gets 0.1; 99.9 gets 0.13.
 */
export const assumedPlusMinus = (percent: number): number =>
  Math.max(0.1, Math.min(0.03 * Math.abs(percent), 0.1 + 0.3 * (100 - percent)));

/**
 * The as-weighed view of an analysis that has no faults (faultsOfAnalysis). Nothing is brought to
 * 100. A loss that is missing is 100 − Σ oxides where that is not negative.
 *
 * Worked number: SiO2 65 and Al2O3 30 calcined with a loss of 10 are 58.5 and 27 as weighed,
 * with 4.5 unaccounted.
 */
export function powderOf(analysis: Analysis): Powder {
  const listed = Object.keys(analysis.oxides) as Oxide[];
  const count = listed.length;
  const percent: number[] = [];
  const ownPlusMinus: number[] = [];
  const places: number[] = [];
  const assumed: Oxide[] = [];
  let sum = 0;
  for (let index = 0; index < count; index++) {
    const oxide = listed[index] as Oxide;
    const figure = analysis.oxides[oxide] as Figure;
    const value = toFloat(figure.percent);
    percent.push(value);
    ownPlusMinus.push(plusMinusOf(figure, value, analysis.ideal));
    if (!figure.plusMinus && !analysis.ideal) assumed.push(oxide);
    places.push(oxidePlace[oxide]);
    sum += value;
  }
  const given = analysis.lossOnIgnition;
  const loss = given ? toFloat(given.percent) : Math.max(0, 100 - sum);
  const lossPlusMinus = given ? plusMinusOf(given, loss, analysis.ideal) : 0;
  const calcined = analysis.basis === "calcined";
  const pullOfLoss = calcined ? percent.map((each) => (-each / 100) * lossPlusMinus) : null;
  if (calcined) weighBeforeFiring(percent, ownPlusMinus, (100 - loss) / 100);
  const lossIs = given ? "given" : sum <= 100 ? "rest" : "none";
  return {
    listed,
    places,
    percent,
    ownPlusMinus,
    pullOfLoss,
    loss,
    lossPlusMinus,
    lossIs,
    unaccounted: lossIs === "rest" ? 0 : unaccountedOf(percent, loss),
    assumed,
    lossPlusMinusAssumed: given !== undefined && !given.plusMinus && !analysis.ideal,
  };
}

function plusMinusOf(figure: Figure, percent: number, ideal: boolean | undefined): number {
  if (figure.plusMinus) return toFloat(figure.plusMinus);
  return ideal ? 0 : assumedPlusMinus(percent);
}

function weighBeforeFiring(percent: number[], plusMinus: number[], left: number): void {
  for (let index = 0; index < percent.length; index++) {
    percent[index] = (percent[index] ?? 0) * left;
    plusMinus[index] = (plusMinus[index] ?? 0) * left;
  }
}

function unaccountedOf(percent: readonly number[], loss: number): number {
  let rest = 100 - loss;
  for (const each of percent) rest -= each;
  return rest;
}
