import type { Level } from "./chemistry-types.ts";
import type { Oxide } from "./oxides.ts";

/** What a rule measures: a sum of oxides in the fired glass or in the unity formula, or a ratio. */
export type Measure =
  | { readonly of: "weight percent"; readonly oxides: readonly Oxide[] }
  | { readonly of: "unity"; readonly oxides: readonly Oxide[] }
  | { readonly of: "alkali share" };

/**
 * A rule that holds one measure against one limit. It speaks where the value is `beyond` the limit,
 * at `level`, and as a note where only the ± reaches past it. `decorative` is its level for a glaze
 * that never touches food. `with` is what must be there as well for the rule to apply: another
 * oxide, and at least how many percent of the fired glass.
 */
export type MeasuredRule = {
  readonly id: string;
  readonly looksAt: string;
  readonly measure: Measure;
  readonly beyond: "over" | "under";
  readonly limit: number;
  readonly with?: { readonly oxide: Oxide; readonly from: number };
  readonly level: Level;
  readonly decorative?: Level;
  readonly source: string;
  readonly name: string;
  readonly means: string;
  readonly next: string;
};

const common = "common practice, no source";
const courseGuide = "H. McWhinnie, online glaze course, lesson 2 (2000), flux limits; looked up";
const glass = (...oxides: Oxide[]): Measure => ({ of: "weight percent", oxides });
const unity = (...oxides: Oxide[]): Measure => ({ of: "unity", oxides });

/** Rules of the glaze itself, each with one limit. Order does not matter: the gravest is shown first. */
export const measuredRules: readonly MeasuredRule[] = [
  {
    id: "barium-matt",
    looksAt: "BaO, weight percent of the fired glass",
    measure: glass("BaO"),
    ...{ beyond: "over", limit: 5, level: "stop", decorative: "caution", source: common },
    name: "BaO",
    means: "as in a barium matt, from which it can leach",
    next: "Mark it decorative only, and keep it off every surface that food, drink, lips or cutlery touch.",
  },
  {
    id: "metal-flux",
    looksAt: "MnO + CuO, weight percent of the fired glass",
    measure: glass("MnO", "CuO"),
    ...{ beyond: "over", limit: 10, level: "stop", decorative: "caution", source: common },
    name: "MnO with CuO",
    means: "the metals do the melting, and they can leach",
    next: "Mark it decorative only: sculpture or outsides, well away from the rim; fire it with the kiln's ventilation on.",
  },
  {
    id: "alkali-high",
    looksAt: "alkali share, (Li2O + Na2O + K2O) over all fluxes, molar",
    measure: { of: "alkali share" },
    ...{ beyond: "over", limit: 0.5, level: "caution", decorative: "note", source: common },
    with: { oxide: "SiO2", from: 1 },
    name: "The alkali share",
    means: "more alkali than alkaline earth makes a soft glaze that crazes easily",
    next: "Look for crazing on tiles, and run the acid, alkali and dishwasher tests; lime or magnesia for some of the alkali balances it.",
  },
  {
    id: "alkali-low",
    looksAt: "alkali share, (Li2O + Na2O + K2O) over all fluxes, molar",
    measure: { of: "alkali share" },
    ...{ beyond: "under", limit: 0.1, level: "note", source: common },
    with: { oxide: "SiO2", from: 1 },
    name: "The alkali share",
    means: "so little alkali often leaves a glaze dry or half melted",
    next: "Fire a tile at the low end of the cones and look whether it has melted through.",
  },
  {
    id: "colour-total",
    looksAt: "colouring oxides other than Fe2O3, weight percent of the fired glass",
    measure: glass(
      ...(["MnO", "CoO", "CuO", "NiO", "Cr2O3", "V2O5"] as const),
      ...(["Pr6O11", "Nd2O3", "Er2O3", "CdO", "SeO2", "U3O8"] as const),
    ),
    ...{ beyond: "over", limit: 3, level: "caution", decorative: "note", source: common },
    name: "Colouring oxides other than iron",
    means: "past a couple of percent the glass may not hold all of them",
    next: "Test it anew as a glaze of its own, for leaching too: tests of the pale base say nothing of it.",
  },
  {
    id: "copper-load",
    looksAt: "CuO, weight percent of the fired glass",
    measure: glass("CuO"),
    ...{ beyond: "over", limit: 4, level: "caution", source: common },
    name: "CuO",
    means: "past what most glazes dissolve: it comes out as a metal skin",
    next: "Bring it down, or keep it to decorative ware.",
  },
  {
    id: "manganese-fumes",
    looksAt: "MnO, weight percent of the fired glass",
    measure: glass("MnO"),
    ...{ beyond: "over", limit: 3, level: "caution", source: common },
    name: "MnO",
    means: "with so much of it manganese leaves the kiln as fumes, which harm the nerves",
    next: "Fire with the kiln's ventilation on and stay out of the kiln room.",
  },
  {
    id: "chromium-flashing",
    looksAt: "Cr2O3, weight percent of the fired glass, beside at least 1 % SnO2",
    measure: glass("Cr2O3"),
    ...{ beyond: "over", limit: 0.05, level: "note", source: common },
    with: { oxide: "SnO2", from: 1 },
    name: "Cr2O3",
    means: "chromium turns tin whites pink, on pots nearby in the kiln as well",
    next: "Place it away from tin-white ware, and put a tile beside it.",
  },
  {
    id: "lithium-shivering",
    looksAt: "Li2O in the unity formula",
    measure: unity("Li2O"),
    ...{ beyond: "over", limit: 0.2, level: "note", source: courseGuide },
    name: "Li2O in the unity formula",
    means: "lithia lowers the expansion, and a glaze too small for its body flakes off edges",
    next: "Look along rims and handles of tiles for flakes, also days later.",
  },
  {
    id: "zinc-high",
    looksAt: "ZnO in the unity formula",
    measure: unity("ZnO"),
    ...{ beyond: "over", limit: 0.3, level: "note", source: courseGuide },
    name: "ZnO in the unity formula",
    means: "zinc grows crystals, turns greens of chromium brown and is attacked by acids",
    next: "Run the acid test on a tile, and look at the colours on it.",
  },
];
