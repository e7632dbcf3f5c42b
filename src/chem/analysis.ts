import { Decimal } from "decimal.js";
import { type Oxide, oxides } from "./oxides.ts";

export { type Powder, powderOf } from "./powder.ts";

/** Weight percent with its expanded uncertainty (k = 2, 95 %); no `plusMinus` means assume one. */
export type Figure = { readonly percent: Decimal; readonly plusMinus?: Decimal | undefined };

/** What the percents are of: the powder as weighed, or what is left of it after firing. */
export type Basis = "asReceived" | "calcined";

/**
 * What a powder is made of, in reporting oxides. Nothing is ever brought to 100.
 *
 * `ideal` says that a figure without ± is exact, as for a textbook formula; `givesOff` names the
 * elements (F, Cl, S) that leave the kiln as fumes and of which part may stay in the glass.
 */
export type Analysis = {
  readonly basis: Basis;
  readonly oxides: Readonly<Partial<Record<Oxide, Figure>>>;
  readonly lossOnIgnition?: Figure | undefined;
  readonly ideal?: boolean | undefined;
  readonly givesOff?: readonly string[] | undefined;
};

/** Where a request is wrong, as a dotted path, and what to do about it. */
export type Fault = { readonly path: string; readonly says: string };

/** The most that oxides and loss may add up to, percent of the powder. */
export const mostTotal = 102;

/** Below this a percent is beyond any laboratory, and near the end of float64. */
const leastFigure = "1e-12";

/** A loss may be negative, where oxygen is taken up: metallic lithium comes near this. */
const leastLoss = -300;

/**
 * What is wrong with an analysis; empty where it can be used. Paths are those of the material it
 * belongs to: `analysis.SiO2.percent`, `lossOnIgnition.percent`, `analysis` for the whole.
 */
export function faultsOfAnalysis(analysis: Analysis): Fault[] {
  const { basis, lossOnIgnition: loss } = analysis;
  const listed = oxides.flatMap((oxide) => {
    const figure = analysis.oxides[oxide];
    return figure ? [{ path: `analysis.${oxide}`, figure }] : [];
  });
  const faults = listed.flatMap(({ path, figure }) => faultsOfFigure(path, figure, 0));
  if (loss) faults.push(...faultsOfFigure("lossOnIgnition", loss, leastLoss));
  if (listed.length === 0) {
    faults.push({ path: "analysis", says: "List at least one oxide." });
  }
  if (basis === "calcined" && !loss) {
    faults.push({
      path: "lossOnIgnition",
      says: "Give the loss on ignition: a calcined analysis cannot be turned back without it.",
    });
  }
  if (faults.length > 0) return faults;
  const sum = Decimal.sum(0, ...listed.map(({ figure }) => figure.percent));
  return faultsOfTotal(analysis, sum);
}

function faultsOfFigure(path: string, { percent, plusMinus }: Figure, least: number): Fault[] {
  const faults: Fault[] = [];
  if (!percent.isFinite()) {
    faults.push({ path: `${path}.percent`, says: "Give a number." });
  } else if (percent.lt(least)) {
    const says = least === 0 ? "A percentage is not below 0." : `A loss is not below ${least} %.`;
    faults.push({ path: `${path}.percent`, says });
  } else if (!percent.isZero() && percent.abs().lt(leastFigure)) {
    faults.push({ path: `${path}.percent`, says: "This is too little to count: write 0." });
  } else if (percent.gt(400)) {
    faults.push({ path: `${path}.percent`, says: "No oxide makes up this much of a powder." });
  }
  if (plusMinus && !(plusMinus.gte(0) && plusMinus.lte(100))) {
    faults.push({ path: `${path}.plusMinus`, says: "A ± is a number from 0 to 100." });
  }
  return faults;
}

function faultsOfTotal({ basis, lossOnIgnition: loss }: Analysis, sum: Decimal): Fault[] {
  const lost = loss?.percent ?? new Decimal(0);
  const says = (total: Decimal, of: string) =>
    `${of} add up to ${total.toDecimalPlaces(2)} %, over ${mostTotal} %: look for a slip of the pen.`;
  if (lost.gt(100)) {
    return [
      { path: "lossOnIgnition.percent", says: "A powder cannot lose more than all of itself." },
    ];
  }
  if (basis === "calcined" && sum.gt(mostTotal)) {
    return [{ path: "analysis", says: says(sum, "The oxides of the calcined powder") }];
  }
  const asReceived = basis === "calcined" ? sum.times(lost.neg().plus(100)).div(100) : sum;
  const total = asReceived.plus(lost);
  return total.gt(mostTotal) ? [{ path: "analysis", says: says(total, "Oxides and loss") }] : [];
}
