import type { Analysis, Figure } from "../../src/chem/analysis.ts";
import type { ChemistryRequest } from "../../src/chem/chemistry-types.ts";
import { fluxes, molarMass, type Oxide } from "../../src/chem/oxides.ts";
import { assumedPlusMinus } from "../../src/chem/powder.ts";
import { mulberry32, normalDraws } from "./draws.ts";

/** The interval that holds 95.45 % of the draws, as much beyond it on either side (k = 2). */
export type Interval = { low: number; high: number };

/**
 * The unity formula by drawing its unknowns, written apart from the chemistry: each percent and
 * loss is normal about its value (JCGM 101:2008, 6.4.7), with half its k = 2 ± for a standard
 * uncertainty, and each weighing uniform over a scale's step (6.4.2).
 */
export function drawUnity(
  request: ChemistryRequest,
  { draws, seed }: { draws: number; seed: number },
): Map<string, Interval> {
  const uniform = mulberry32(seed);
  const normal = normalDraws(uniform);
  const powders = powdersOf(request);
  const names = [...new Set(powders.flatMap(({ figures }) => figures.map(({ oxide }) => oxide)))];
  const place = new Map(names.map((oxide, at) => [oxide, at]));
  const asFeO = request.iron === "FeO";
  const perGram = names.map((oxide) => (asFeO && oxide === "Fe2O3" ? 2 : 1) / molarMass[oxide]);
  const inBase = names.map((oxide) => baseOf(request).has(oxide));
  const drawn = names.map(() => new Float64Array(draws));
  const moles = new Float64Array(names.length);
  for (let draw = 0; draw < draws; draw++) {
    moles.fill(0);
    for (const { amount, steps, figures, loss, calcined } of powders) {
      let weighed = amount;
      for (const step of steps) weighed += step * (uniform() - 0.5);
      const lost = loss.value + loss.sigma * normal();
      const left = calcined ? (100 - lost) / 100 : 1;
      for (const { oxide, value, sigma } of figures) {
        const at = place.get(oxide)!;
        moles[at]! += weighed * left * (value + sigma * normal()) * perGram[at]!;
      }
    }
    let base = 0;
    for (let at = 0; at < moles.length; at++) if (inBase[at]) base += moles[at]!;
    for (let at = 0; at < moles.length; at++) drawn[at]![draw] = moles[at]! / base;
  }
  return new Map(
    names.map((oxide, at) => [
      asFeO && oxide === "Fe2O3" ? "FeO" : oxide,
      intervalOf(drawn[at]!.sort()),
    ]),
  );
}

/** P(|z| ≤ 2) of the normal distribution is 0.954500. */
const beyond = (1 - 0.9545) / 2;

const intervalOf = (sorted: Float64Array): Interval => ({
  low: sorted[Math.round(beyond * sorted.length)]!,
  high: sorted[Math.round((1 - beyond) * sorted.length) - 1]!,
});

function baseOf({ unity, iron }: ChemistryRequest): Set<Oxide> {
  if (unity !== "fluxes-and-colour") return new Set(fluxes);
  return new Set([
    ...fluxes,
    "MnO",
    "CoO",
    "CuO",
    "NiO",
    ...(iron === "FeO" ? (["Fe2O3"] as const) : []),
  ]);
}

type Drawn = { value: number; sigma: number };
type DrawnPowder = {
  amount: number;
  steps: number[];
  figures: (Drawn & { oxide: Oxide })[];
  loss: Drawn;
  calcined: boolean;
};

function powdersOf({ lines, grams, scaleGrams }: ChemistryRequest): DrawnPowder[] {
  const base = lines
    .filter(({ part }) => part === "base")
    .reduce((sum, { amount }) => sum + amount.toNumber(), 0);
  const step = grams && scaleGrams ? (scaleGrams.toNumber() * base) / grams.toNumber() : 0;
  return [...new Set(lines.map(({ key }) => key))].flatMap((key) => {
    const mine = lines.filter((line) => line.key === key);
    const analysis = mine[0]!.analysis;
    if (!analysis) return [];
    const parts = new Set(mine.map(({ part }) => part));
    return {
      amount: mine.reduce((sum, { amount }) => sum + amount.toNumber(), 0),
      steps: step > 0 ? [...parts].map(() => step) : [],
      figures: Object.entries(analysis.oxides).map(([oxide, figure]) => ({
        oxide: oxide as Oxide,
        ...drawnOf(figure, analysis),
      })),
      loss: analysis.lossOnIgnition
        ? drawnOf(analysis.lossOnIgnition, analysis)
        : { value: 0, sigma: 0 },
      calcined: analysis.basis === "calcined",
    };
  });
}

function drawnOf({ percent, plusMinus }: Figure, { ideal }: Analysis): Drawn {
  const value = percent.toNumber();
  return { value, sigma: (plusMinus?.toNumber() ?? (ideal ? 0 : assumedPlusMinus(value))) / 2 };
}
