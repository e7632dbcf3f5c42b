import type { Level } from "./chemistry-types.ts";
import { mostFluxDoubt } from "./first-order.ts";
import type { Oxide } from "./oxides.ts";

/**
 * The thresholds of the screen; those of one measure each are in rules-measured.ts, boron by cone in
 * rules-boron.ts, powders in the room in rules-handling.ts. None of them makes a glaze fit for food:
 * they only say what bars it or what has to be looked at. `limit` is in the measure that `looksAt`
 * names.
 */
const common = "common practice, no source";

/** Oxides that bar a glaze from food over their limit, weight percent of the fired glass. */
export const poisons: readonly {
  id: string;
  name: string;
  oxide: Oxide;
  limit: number;
  /** Words in a material's name that mean it is a constituent. */
  words: readonly string[];
  source: string;
}[] = [
  {
    id: "lead",
    name: "lead",
    oxide: "PbO",
    limit: 0.01,
    source: common,
    words: ["lead", "litharge", "minium", "galena"],
  },
  { id: "cadmium", name: "cadmium", oxide: "CdO", limit: 0.01, source: common, words: ["cadmium"] },
  {
    id: "antimony",
    name: "antimony",
    oxide: "Sb2O3",
    limit: 0.01,
    source: common,
    words: ["antimony", "antimonate", "naples yellow"],
  },
  {
    id: "selenium",
    name: "selenium",
    oxide: "SeO2",
    limit: 0.01,
    source: common,
    words: ["selenium", "selenide"],
  },
  {
    id: "uranium",
    name: "uranium",
    oxide: "U3O8",
    limit: 0.01,
    source: common,
    words: ["uranium", "uranate"],
  },
];

/**
 * Elements whose leaching only a laboratory can tell: over the level, weight percent of the oxide
 * in the fired glass, a functional glaze needs a leach report for that element. The levels are
 * set above what ordinary powders carry as traces.
 */
export const leachList: readonly {
  element: string;
  name: string;
  oxide: Oxide;
  level: number;
  source: string;
}[] = [
  { element: "Pb", name: "lead", oxide: "PbO", level: 0.01, source: common },
  { element: "Cd", name: "cadmium", oxide: "CdO", level: 0.01, source: common },
  { element: "Ba", name: "barium", oxide: "BaO", level: 0.5, source: common },
  { element: "Mn", name: "manganese", oxide: "MnO", level: 0.5, source: common },
  { element: "Cu", name: "copper", oxide: "CuO", level: 0.5, source: common },
  { element: "Co", name: "cobalt", oxide: "CoO", level: 0.5, source: common },
  { element: "Ni", name: "nickel", oxide: "NiO", level: 0.1, source: common },
  { element: "Cr", name: "chromium", oxide: "Cr2O3", level: 0.1, source: common },
  { element: "V", name: "vanadium", oxide: "V2O5", level: 0.1, source: common },
  { element: "Sb", name: "antimony", oxide: "Sb2O3", level: 0.01, source: common },
  { element: "Se", name: "selenium", oxide: "SeO2", level: 0.01, source: common },
  { element: "U", name: "uranium", oxide: "U3O8", level: 0.01, source: common },
  { element: "Li", name: "lithium", oxide: "Li2O", level: 1, source: common },
  { element: "Sr", name: "strontium", oxide: "SrO", level: 2, source: common },
];

/** Words that name a stain whose colour is shut in crystals. */
export const inclusionWords: readonly string[] = ["inclusion", "encapsulated"];

export type Rule = {
  readonly looksAt: string;
  readonly limit?: number;
  readonly level: Level;
  readonly source: string;
  /** What the reader does next; ends every finding of the rule. */
  readonly next: string;
  /** What ends it for a glaze that is decorative only, where that is something else. */
  readonly decorative?: string;
};

/** All rules that are more than one measure against one limit, by the id that a finding carries. */
export const rules = {
  "no-glass": {
    looksAt: "what is left after firing",
    level: "caution",
    source: "arithmetic",
    next: "Check the amounts and the analyses.",
  },
  "no-flux": {
    looksAt: "the sum of Li2O, Na2O, K2O, MgO, CaO, SrO, BaO, ZnO and PbO",
    level: "caution",
    source: "arithmetic; H. A. Seger's unity formula divides by R2O + RO",
    next: "Read the weight and mole percent instead.",
  },
  "no-alumina": {
    looksAt: "Al2O3",
    level: "note",
    source: "arithmetic",
    next: "Expect a runny glaze: test it on a tile with a catch dish.",
  },
  "first-order": {
    looksAt: "the ± of the flux sum as a share of it",
    limit: mostFluxDoubt,
    level: "caution",
    source: "computed: past it, first order is over 5 % off; JCGM 101:2008, 8",
    next: "Read the weight percent, or get a better analysis of what brings the fluxes.",
  },
  "colour-as-flux": {
    looksAt: "FeO (two for each Fe2O3), MnO, CoO, CuO and NiO, moles for each mole of flux",
    limit: 0.3,
    level: "caution",
    source: common,
    next: "Do not hold this unity formula against limits or maps made for pale glazes.",
  },
  trace: {
    looksAt: "a poison below its limit, weight percent of the fired glass",
    level: "note",
    source: common,
    next: "Real powders carry traces: ask the supplier for the figure of your lot.",
  },
  poison: {
    looksAt: "a poison over its limit, weight percent of the fired glass",
    level: "stop",
    source: common,
    next: "Leave it out, or keep the glaze off anything that may touch food, drink or lips.",
  },
  "poison-named": {
    looksAt: "the names of the materials",
    level: "stop",
    source: common,
    next: "Leave it out, or keep the glaze off anything that may touch food, drink or lips.",
  },
  "leach-report": {
    looksAt: "each oxide of the leach list, weight percent of the fired glass",
    level: "caution",
    source: common,
    next: "Have tiles of this melt leach-tested by a laboratory before it goes where food touches; no home test stands in for that.",
    decorative: "Keep it off anything that may touch food, drink or lips.",
  },
  unaccounted: {
    looksAt: "100 − oxides − loss, percent of a material",
    limit: 2,
    level: "caution",
    source: common,
    next: "Ask the supplier for a whole analysis.",
  },
  "unknown-composition": {
    looksAt: "a line that is over 5 % unaccounted, or an inclusion stain",
    limit: 5,
    level: "caution",
    source: common,
    next: "Before it goes where food touches, have a laboratory's leach report made on tiles of this melt, for lead and cadmium at least.",
  },
  "no-analysis": {
    looksAt: "additions without an analysis",
    level: "caution",
    source: common,
    next: "Ask the maker what is in it, and before it goes where food touches have a laboratory's leach report made on tiles of this melt, for lead and cadmium at least.",
  },
  "old-analysis": {
    looksAt: "years from the day of an analysis to today",
    limit: 5,
    level: "note",
    source: common,
    next: "Ask the supplier for a newer one: mines and mills change.",
  },
  "silica-for-cone": {
    looksAt: "SiO2 in the unity formula, against the limit formulas printed for the cone",
    level: "note",
    source: "published limit formulas; each finding names its own",
    next: "Fire tiles at both ends of the cones and judge by them: a limit formula is where its author's glazes lay.",
  },
  "alumina-for-cone": {
    looksAt: "Al2O3 in the unity formula, against the limit formulas printed for the cone",
    level: "note",
    source: "published limit formulas; each finding names its own",
    next: "Fire tiles at both ends of the cones and judge by them: a limit formula is where its author's glazes lay.",
  },
  "limits-for-cone": {
    looksAt: "the cones that limit formulas were printed for",
    level: "note",
    source: "no limit formula is held between the printed cones",
    next: "Judge silica and alumina by tiles at both ends of the cones.",
  },
  "boron-for-cone": {
    looksAt: "B2O3 in the unity formula, against the least that glazes for the cone carry",
    level: "note",
    source: common,
    next: "Look on a tile at the low end of the cones whether it has melted through; zinc, lithia or more alkali can stand in for some boron.",
  },
  "boron-over-cone": {
    looksAt: "B2O3 in the unity formula, against the most that glazes for the cone carry",
    level: "caution",
    source: common,
    next: "Check the cone, its leading zero included, and fire a tile on a catch dish before any pot.",
  },
  fumes: {
    looksAt: "fluorine, chlorine and sulphur in the materials",
    level: "caution",
    source: common,
    next: "Fire with the kiln's ventilation on and stay out of the kiln room.",
  },
} as const satisfies Record<string, Rule>;

export type RuleId = keyof typeof rules;

/** Names of the elements that leave as fumes and of which part may stay. */
export const fumeNames: Readonly<Record<string, string>> = {
  F: "fluorine",
  Cl: "chlorine",
  S: "sulphur",
};
