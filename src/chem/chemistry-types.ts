import type { Decimal } from "decimal.js";
import type { Analysis } from "./analysis.ts";
import type { Cone } from "./cones.ts";
import type { Part } from "./lines.ts";
import type { Oxide } from "./oxides.ts";

/** What the unity formula divides by: the fluxes alone, or the colouring fluxes with them. */
export type UnityBase = "fluxes" | "fluxes-and-colour";

/** How iron stands in the unity formula; weight and mole percent stay Fe2O3. */
export type Iron = "Fe2O3" | "FeO";

/**
 * Where boron is counted in the ratios: apart (SiO2/Al2O3 alone), with the alumina as R2O3, or with
 * the silica as a glass-former. Authors differ, so an answer names what it did.
 */
export type Boron = "apart" | "with-alumina" | "with-silica";

export type Conventions = { unity: UnityBase; iron: Iron; boron: Boron };

/** May it touch food, drink and lips (functional), or never (decorative)? */
export type Use = "functional" | "decorative";

/**
 * One line of a recipe. `key` is the identity of its analysis: one analysis in several lines is
 * one unknown, and lines of equal key and part are one weighing. `analysedOn` is the day of the
 * analysis, YYYY-MM-DD.
 */
export type ChemistryLine = {
  readonly key: string;
  readonly name: string;
  readonly part: Part;
  readonly amount: Decimal;
  readonly analysis: Analysis | null;
  readonly analysedOn?: string | undefined;
};

/**
 * `grams` is the base of a real batch and `scaleGrams` the scale's step: with both, weighing counts.
 * `today`, YYYY-MM-DD, is what the ages of analyses are counted to; without it none is too old.
 */
export type ChemistryRequest = {
  readonly lines: readonly ChemistryLine[];
  readonly unity?: UnityBase | undefined;
  readonly iron?: Iron | undefined;
  readonly boron?: Boron | undefined;
  readonly cone?: Cone | undefined;
  readonly use?: Use | undefined;
  readonly explain?: boolean | undefined;
  readonly grams?: Decimal | undefined;
  readonly scaleGrams?: Decimal | undefined;
  readonly today?: string | undefined;
};

/** A value with its expanded uncertainty (k = 2, 95 %), both unrounded. */
export type Quantity = { value: number; plusMinus: number };

export type UnityOxide = Oxide | "FeO";

/** How a published figure is known: seen in print, remembered, or remembered without being sure. */
export type HowSure = "looked up" | "from memory" | "low";

/**
 * Linear expansion by one published model, whatever the model's own `kind` and `basis` were. `value`
 * is null where oxides without a factor are over 2 % of the glass; `outside` lists them all. `±` is
 * the analyses' part alone. `celsius` is the interval that the factors were printed for, and
 * `howSure` the least sure of the factors used.
 */
export type Expansion = {
  model: string;
  value: number | null;
  plusMinus: number | null;
  unit: "1e-6/K";
  source: string;
  outside: Oxide[];
  name?: string;
  basis?: "weight" | "mole";
  kind?: "cubical" | "linear";
  celsius?: { from: number; to: number } | null;
  howSure?: HowSure;
};

/** `stop` bars a glaze from food, `caution` asks for something to be done, `note` is good to know. */
export type Level = "note" | "caution" | "stop";

/**
 * `value`, its `plusMinus` and `limit` are in the measure that `says` names; `says` ends with what to
 * do next. `elements` are those that a laboratory's leach report is asked for.
 */
export type Finding = {
  rule: string;
  level: Level;
  says: string;
  value?: number;
  plusMinus?: number;
  limit?: number;
  elements?: string[];
  source: string;
};

/**
 * What had to be assumed of a material: `plusMinus` where figures came without a ±, `loss` where
 * the loss on ignition was taken as what is missing from 100. `line` is its first line.
 */
export type Assumption = {
  what: "plusMinus" | "loss";
  line: number;
  material: string;
  oxides: Oxide[];
  says: string;
};

/** `line` is the place in the request, `moles` those in the batch with its parts read as grams. */
export type Contribution = { line: number; moles: number; share: number };

/**
 * `potashAndSoda` is (K2O + Na2O) / unity base. The last two are there only where the request counts
 * boron so: SiO2/(Al2O3 + B2O3), and (SiO2 + B2O3)/Al2O3.
 */
export type Ratios = {
  silicaToAlumina: Quantity | null;
  alkaliShare: Quantity | null;
  potashAndSoda: Quantity | null;
  silicaToR2O3?: Quantity | null;
  glassFormersToAlumina?: Quantity | null;
};

/** `findings` are of the glaze, `handling` of the powders in the room. */
export type Chemistry = {
  engine: string;
  conventions: Conventions;
  batch: { base: string; additions: string; total: string };
  lossOnIgnition: Quantity & { unit: "percent of batch" };
  unaccounted?: Quantity & { unit: "percent of batch" };
  weightPercent: Partial<Record<Oxide, Quantity>>;
  molePercent: Partial<Record<Oxide, Quantity>>;
  unity: Partial<Record<UnityOxide, Quantity>> | null;
  ratios: Ratios;
  expansion: Expansion[];
  findings: Finding[];
  handling: Finding[];
  assumed: Assumption[];
  explain?: Partial<Record<Oxide, Contribution[]>>;
};
