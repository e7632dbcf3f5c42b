import { Decimal } from "decimal.js";
import { workOut } from "../../src/chem/chemistry.ts";
import { atomicWeight, isElement } from "../../src/chem/elements.ts";
import { exactMolarMass, isOxide, molarMass, type Oxide } from "../../src/chem/oxides.ts";
import atomicWeights from "./atomic-weights.json" with { type: "json" };
import { type CheckFamily, offBy } from "./check-family.ts";
import expansionFactors from "./expansion-factors.json" with { type: "json" };
import minerals from "./minerals.json" with { type: "json" };
import molarMasses from "./oxide-molar-masses.json" with { type: "json" };
import {
  analysisOf,
  linesOf,
  type PrintedBatch,
  segerBatches,
  workedBatches,
} from "./published.ts";

const weights: CheckFamily = {
  name: "Atomic weights",
  source:
    "T. Prohaska et al., “Standard atomic weights of the elements 2021”, Pure and Applied Chemistry 94 (2022), pp. 573–600, abridged values",
  how: "looked up",
  unit: "g/mol",
  checks: atomicWeights.map(({ symbol, value }) => ({
    what: symbol,
    tolerance: 0,
    deviation: isElement(symbol) ? new Decimal(atomicWeight[symbol]).minus(value).toNumber() : 999,
  })),
};

const masses: CheckFamily = {
  name: "Molar masses of the oxides",
  source: "sums of the IUPAC abridged weights of 2021",
  how: "computed",
  unit: "g/mol",
  checks: molarMasses.flatMap(({ oxide, exact }) =>
    isOxide(oxide)
      ? { what: oxide, tolerance: 0, deviation: exactMolarMass(oxide).minus(exact).toNumber() }
      : [],
  ),
  leftOut: "Gases, and oxides that are reported as another of the same element.",
};

type Mineral = {
  name: string;
  formula: string;
  value: Record<string, number>;
  loi: number;
  tolerance: number;
};
const isMineral = (record: object): record is Mineral => "formula" in record && "loi" in record;
const known = (minerals as object[]).filter(isMineral);

const compositions: CheckFamily = {
  name: "Composition of minerals and chemicals",
  source: "formulas of textbooks, with the IUPAC abridged weights of 2021",
  how: "computed",
  unit: "weight percent, the furthest oxide",
  checks: known.map(({ name, formula, value, tolerance }) => {
    const { oxides } = analysisOf(formula);
    const percents = Object.entries(oxides).map(([oxide, { percent }]) => [
      oxide,
      percent.toNumber(),
    ]);
    return { what: name, tolerance, deviation: offBy(Object.fromEntries(percents), value) };
  }),
};

const losses: CheckFamily = {
  name: "Losses on ignition",
  source: "the same formulas and weights; below 0 where oxygen is taken up",
  how: "computed",
  unit: "weight percent",
  checks: known.map(({ name, formula, loi }) => ({
    what: name,
    tolerance: 0.01,
    deviation: offBy(
      { loss: analysisOf(formula).lossOnIgnition?.percent.toNumber() },
      { loss: loi },
    ),
  })),
};

const unityOf = (batch: PrintedBatch): Record<string, number> =>
  Object.fromEntries(
    Object.entries(workOut({ lines: linesOf(batch) }).unity ?? {}).map(([oxide, { value }]) => [
      oxide,
      value,
    ]),
  );

const printedUnity = (batches: readonly PrintedBatch[]) =>
  batches.map((batch) => ({
    what: batch.id,
    tolerance: batch.suggested_tolerance_vs_published,
    deviation: offBy(unityOf(batch), batch.published_unity),
  }));

const misprint = "binns-recipe1-bright-raw-cone06";

const seger: CheckFamily = {
  name: "Seger's cones from their batches",
  source:
    "H. A. Seger, Tonindustrie-Zeitung 1886, p. 135, table of cones 1 to 20, as abstracted in Dingler's Polytechnisches Journal 261 (1886), pp. 37–42",
  how: "looked up",
  unit: "moles in the unity formula, the furthest oxide",
  checks: printedUnity(segerBatches),
};

const worked: CheckFamily = {
  name: "Worked glazes",
  source:
    "C. F. Binns, The Potter's Craft, 2nd edition, 1922; L. Krakowski, Basic Internet Glaze Course",
  how: "looked up",
  unit: "moles in the unity formula, the furthest oxide",
  checks: printedUnity(workedBatches.filter(({ id }) => id !== misprint)),
  leftOut: "Binns' first recipe: he prints K2O .15 where his own mix gives .10.",
};

const fractions: CheckFamily = {
  name: "The same glazes in exact fractions",
  source:
    "the batches above, worked out apart from this program with the IUPAC abridged weights of 2021",
  how: "computed",
  unit: "moles in the unity formula, the furthest oxide",
  checks: [...segerBatches, ...workedBatches].map((batch) => ({
    what: batch.id,
    tolerance: 6e-6,
    deviation: offBy(unityOf(batch), batch.computed_modern.unity),
  })),
};

type Glass = Partial<Record<Oxide, number>>;

/** Linear 1e-7/K of a glass of so much of each oxide by weight, by one model. */
function expansionOf(model: string, glass: Glass): number {
  const figures = Object.entries(glass).map(([oxide, percent]) => [
    oxide,
    { percent: new Decimal(percent) },
  ]);
  const analysis = {
    basis: "asReceived" as const,
    oxides: Object.fromEntries(figures),
    ideal: true,
  };
  const line = {
    key: "glass",
    name: "glass",
    part: "base" as const,
    amount: new Decimal(100),
    analysis,
  };
  const { expansion } = workOut({ lines: [line] });
  return 10 * (expansion.find((each) => each.model === model)?.value ?? Number.NaN);
}

const byWeight = (moles: Glass): Glass => {
  const grams = Object.entries(moles).map(
    ([oxide, count]) => [oxide, count * molarMass[oxide as Oxide]] as const,
  );
  const all = grams.reduce((sum, [, each]) => sum + each, 0);
  return Object.fromEntries(grams.map(([oxide, each]) => [oxide, (100 * each) / all]));
};

const models: Readonly<Record<string, string>> = {
  "ex-WS": "winkelmann-schott",
  "ex-ET": "english-turner",
  "ex-Appen": "appen",
  "Winkelmann & Schott 1894": "winkelmann-schott",
  "English & Turner 1927/29": "english-turner",
};

type WorkedSum = {
  id: string;
  input: Glass;
  input_unit: string;
  value: number | { linear: number };
};
const isSum = (record: object): record is WorkedSum => "input" in record;
type Factor = { model: string; oxide: Oxide; value: number; unit: string; how: string };
const isFactor = (record: object): record is Factor =>
  "oxide" in record && "how" in record && record.how === "looked up";

const sums: CheckFamily = {
  name: "Sums of thermal expansion",
  source:
    "own sums over the printed factors of three models, for a glass of 74 SiO2, 16 Na2O, 10 CaO",
  how: "computed",
  unit: "1e-7/K, linear",
  checks: (expansionFactors as object[]).filter(isSum).map(({ id, input, input_unit, value }) => ({
    what: models[id] ?? id,
    tolerance: 0.001,
    deviation:
      expansionOf(models[id] ?? id, input_unit === "mol%" ? byWeight(input) : input) -
      (typeof value === "number" ? value : value.linear),
  })),
};

const factors: CheckFamily = {
  name: "Factors of thermal expansion seen in print",
  source:
    "A. Winkelmann & O. Schott, Annalen der Physik und Chemie 51 (1894), p. 730; S. English & W. E. S. Turner, Journal of the Society of Glass Technology 11 (1927)",
  how: "looked up",
  unit: "1e-7/K for a weight percent, as printed (cubical or linear)",
  checks: (expansionFactors as object[]).filter(isFactor).map(({ model, oxide, value, unit }) => ({
    what: `${model}, ${oxide}`,
    tolerance: 1e-9,
    deviation:
      (expansionOf(models[model] ?? model, { [oxide]: 100 }) *
        (unit.startsWith("CUBICAL") ? 3 : 1)) /
        100 -
      value,
  })),
  leftOut: "All other factors are from memory, and Hall's are not sure: they are no check.",
};

export const chemistryChecks: readonly CheckFamily[] = [
  weights,
  masses,
  compositions,
  losses,
  seger,
  worked,
  fractions,
  sums,
  factors,
];
