import { type Fraction, type Sum, totalOf } from "./account-fractions.ts";
import type { Analysis } from "./analysis.ts";
import type { ChemistryLine, ChemistryRequest } from "./chemistry-types.ts";
import { toFloat } from "./float.ts";
import { type Oxide, oxides } from "./oxides.ts";
import { type Powder, powderOf } from "./powder.ts";
import type { Pull } from "./pulls.ts";

/**
 * How much each line brings of one side of a number. `amount` is in `measure`, of the batch with its
 * parts read as grams; `line` is the place in the request; the shares add up to 1. An amount, and so
 * a share, may be negative where oxygen is taken up or a model's factor is below 0.
 */
export type Brought = {
  of: string;
  side: "counted" | "divided by";
  measure: Sum["measure"];
  lines: { line: number; amount: number; share: number }[];
};

/**
 * A figure of a line's analysis that the number uses, percent of the powder as weighed. `how`: its ±
 * was `given`, `assumed`, or it is `exact` by formula; a loss is the `rest` of 100, or `none` was
 * given and the oxides pass 100; a line without an analysis is `unknown`.
 */
export type FigureUsed = {
  line: number;
  of: Oxide | "loss" | "rest";
  percent: number;
  plusMinus: number;
  how: "given" | "assumed" | "exact" | "rest" | "none" | "unknown";
};

type LineRead = { line: number; pull: Pull; powder: Powder | null; analysis: Analysis | null };

/** Each line taken apart: its oxides, its loss and its weight, in parts. */
export const readAlone = ({ lines }: ChemistryRequest): LineRead[] =>
  lines.map(({ analysis, amount }: ChemistryLine, line) => {
    const weight = toFloat(amount);
    const masses = new Float64Array(oxides.length);
    const powder = analysis && powderOf(analysis);
    powder?.places.forEach((place, index) => {
      masses[place] = (weight * (powder.percent[index] ?? 0)) / 100;
    });
    const loss = (weight * (powder?.loss ?? 0)) / 100;
    return { line, powder, analysis, pull: { masses, loss, weight } };
  });

/**
 * Which line brings how much, above and below the line of division; nothing where the parts do not
 * add up to the number.
 *
 * Worked number: of the Al2O3 of feldspar K2O·Al2O3·6SiO2 83.55 and kaolin Al2O3·2SiO2·2H2O 25.90,
 * 83.55/556.654 = 0.1501 mol is the feldspar's and 25.90/258.157 = 0.1003 the kaolin's: 60 and 40 %.
 */
export function broughtBy(read: readonly LineRead[], { above, below, adds }: Fraction): Brought[] {
  if (!adds) return [];
  return [broughtOf(read, above, "counted"), broughtOf(read, below, "divided by")];
}

function broughtOf(read: readonly LineRead[], sum: Sum, side: Brought["side"]): Brought {
  const amounts = read.map(({ line, pull }) => ({ line, amount: totalOf(sum, pull), of: pull }));
  const felt = amounts.filter(({ amount, of }) => Math.abs(amount) > 1e-12 * of.weight);
  const total = felt.reduce((all, { amount }) => all + amount, 0);
  const { called: of, measure } = sum;
  const lines = felt.map(({ line, amount }) => ({ line, amount, share: amount / total }));
  return { of, side, measure, lines };
}

/** The figures of the analyses that a number uses, line by line. */
export function figuresUsed(read: readonly LineRead[], fraction: Fraction): FigureUsed[] {
  const rest = fraction.above.called === "rest";
  return read.flatMap(({ line, powder, analysis }): FigureUsed[] => {
    if (!powder) {
      return rest ? [{ line, of: "rest", percent: 100, plusMinus: 0, how: "unknown" }] : [];
    }
    const listed = fraction.figures.flatMap((of): FigureUsed[] =>
      of === "loss"
        ? [{ line, ...lossOf(powder, analysis) }]
        : oxideOf(powder, analysis, of).map((figure) => ({ line, ...figure })),
    );
    return rest
      ? [...listed, { line, of: "rest", percent: powder.unaccounted, plusMinus: 0, how: "rest" }]
      : listed;
  });
}

type Figure = Omit<FigureUsed, "line">;

function oxideOf(powder: Powder, analysis: Analysis | null, of: Oxide): Figure[] {
  const index = powder.listed.indexOf(of);
  if (index < 0) return [];
  const known = analysis?.oxides[of]?.plusMinus ? "given" : "exact";
  return [
    {
      of,
      percent: powder.percent[index] ?? 0,
      plusMinus: powder.ownPlusMinus[index] ?? 0,
      how: powder.assumed.includes(of) ? "assumed" : known,
    },
  ];
}

function lossOf(powder: Powder, analysis: Analysis | null): Figure {
  const { loss: percent, lossIs, lossPlusMinus } = powder;
  const known = analysis?.lossOnIgnition?.plusMinus ? "given" : "exact";
  const how = powder.lossPlusMinusAssumed ? "assumed" : known;
  if (lossIs === "given") return { of: "loss", percent, plusMinus: lossPlusMinus, how };
  const plusMinus = lossIs === "rest" ? Math.hypot(...powder.ownPlusMinus) : 0;
  return { of: "loss", percent, plusMinus, how: lossIs };
}
