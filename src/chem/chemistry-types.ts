import type { Decimal } from "decimal.js";
import type { Analysis } from "./analysis.ts";
import type { Cone } from "./cones.ts";
import type { Part } from "./lines.ts";
import type { Oxide } from "./oxides.ts";

/** What the unity formula divides by: the fluxes alone, or the colouring fluxes with them. */
export type UnityBase = "fluxes" | "fluxes-and-colour";

/** How iron stands in the unity formula; weight and mole percent stay Fe2O3. */
export type Iron = "Fe2O3" | "FeO";

/** May it touch food, drink and lips (functional), or never (decorative)? */
export type Use = "functional" | "decorative";

/**
 * One line of a recipe. `key` is the identity of its analysis: one analysis in several lines is
 * one unknown, and lines of equal key and part are one weighing.
 */
export type ChemistryLine = {
  readonly key: string;
  readonly name: string;
  readonly part: Part;
  readonly amount: Decimal;
  readonly analysis: Analysis | null;
};

/** `grams` is the base of a real batch and `scaleGrams` the scale's step: with both, weighing counts. */
export type ChemistryRequest = {
  readonly lines: readonly ChemistryLine[];
  readonly unity?: UnityBase | undefined;
  readonly iron?: Iron | undefined;
  readonly cone?: Cone | undefined;
  readonly use?: Use | undefined;
  readonly explain?: boolean | undefined;
  readonly grams?: Decimal | undefined;
  readonly scaleGrams?: Decimal | undefined;
};

/** A value with its expanded uncertainty (k = 2, 95 %), both unrounded. */
export type Quantity = { value: number; plusMinus: number };

export type UnityOxide = Oxide | "FeO";

export type Expansion = {
  model: string;
  value: number | null;
  plusMinus: number | null;
  unit: "1e-6/K";
  source: string;
  outside: Oxide[];
};

/** `stop` bars a glaze from food, `caution` asks for something to be done, `note` is good to know. */
export type Level = "note" | "caution" | "stop";

/** `value` and `limit` are in the measure that `says` names; `says` ends with what to do next. */
export type Finding = {
  rule: string;
  level: Level;
  says: string;
  value?: number;
  limit?: number;
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

export type Chemistry = {
  engine: string;
  batch: { base: string; additions: string; total: string };
  lossOnIgnition: Quantity & { unit: "percent of batch" };
  unaccounted?: Quantity & { unit: "percent of batch" };
  weightPercent: Partial<Record<Oxide, Quantity>>;
  molePercent: Partial<Record<Oxide, Quantity>>;
  unity: Partial<Record<UnityOxide, Quantity>> | null;
  ratios: { silicaToAlumina: Quantity | null; alkaliShare: Quantity | null };
  expansion: Expansion[];
  findings: Finding[];
  assumed: Assumption[];
  explain?: Partial<Record<Oxide, Contribution[]>>;
};
