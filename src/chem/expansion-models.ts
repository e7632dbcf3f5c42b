import type { Expansion, HowSure } from "./chemistry-types.ts";
import type { Oxide } from "./oxides.ts";

/**
 * A published additive model of thermal expansion.
 *
 * A `weight` factor is 1e-7/K for each weight percent, a `mole` factor 1e-7/K for each mole fraction.
 * Those of a `cubical` model give the growth of the volume: a third of that is the growth of a
 * length. `upTo` is the most of an oxide, in the model's basis, that its factor was printed for;
 * above it the oxide has no factor. `lookedUp` and `low` name the factors that were seen in print
 * and those that are remembered without being sure; the others are from memory.
 */
export type ExpansionModel = {
  readonly id: string;
  readonly name: string;
  readonly basis: NonNullable<Expansion["basis"]>;
  readonly kind: NonNullable<Expansion["kind"]>;
  readonly celsius: NonNullable<Expansion["celsius"]> | null;
  readonly madeFor: string;
  readonly source: string;
  readonly factors: Readonly<Partial<Record<Oxide, number>>>;
  readonly upTo?: Readonly<Partial<Record<Oxide, number>>>;
  readonly lookedUp: readonly Oxide[];
  readonly low: readonly Oxide[] | "all";
};

/** How a model's factor for an oxide is known. */
export function sureOf({ lookedUp, low }: ExpansionModel, oxide: Oxide): HowSure {
  if (low === "all" || low.includes(oxide)) return "low";
  return lookedUp.includes(oxide) ? "looked up" : "from memory";
}

/** From a model's own factor to linear 1e-6/K; a third of a cubical one is that of a length. */
export const toLinear = ({ kind }: ExpansionModel): number =>
  kind === "cubical" ? 1 / 30 : 1 / 10;

/** The five models, oldest first. Factors of what is no reporting oxide here are left out. */
export const expansionModels: readonly ExpansionModel[] = [
  {
    id: "winkelmann-schott",
    name: "Winkelmann & Schott, 1894",
    basis: "weight",
    kind: "cubical",
    celsius: { from: 0, to: 100 },
    madeFor: "glasses",
    source: "A. Winkelmann & O. Schott, Annalen der Physik und Chemie 51 (1894), 730",
    factors: {
      ...{ SiO2: 0.8, B2O3: 0.1, Na2O: 10, K2O: 8.5, Li2O: 2, Al2O3: 5, CaO: 5, MgO: 0.1 },
      ...{ ZnO: 1.8, BaO: 3, PbO: 3, P2O5: 2 },
    },
    lookedUp: ["SiO2", "B2O3", "MgO"],
    low: [],
  },
  {
    id: "mayer-havas",
    name: "Mayer & Havas, 1911",
    basis: "weight",
    kind: "cubical",
    celsius: null,
    madeFor: "enamels",
    source: "M. Mayer & B. Havas, Sprechsaal 42 (1909) and 44 (1911)",
    factors: {
      ...{ SiO2: 0.8, B2O3: 0.1, Na2O: 10, K2O: 8.5, Al2O3: 5, CaO: 5, MgO: 0.1, BaO: 3 },
      ...{ PbO: 4.2, ZnO: 2.1, SnO2: 2, TiO2: 4.1, ZrO2: 2.1, Fe2O3: 4, CoO: 4.4, NiO: 4 },
      ...{ CuO: 2.2, MnO: 2.2, Cr2O3: 5.1, Sb2O3: 3.6 },
    },
    lookedUp: [],
    low: [],
  },
  {
    id: "english-turner",
    name: "English & Turner, 1927",
    basis: "weight",
    kind: "linear",
    celsius: { from: 25, to: 90 },
    madeFor: "glasses",
    source:
      "S. English & W. E. S. Turner, Journal of the Society of Glass Technology 11 (1927); Journal of the American Ceramic Society 10 (1927), 551 and 12 (1929), 760",
    factors: {
      ...{ SiO2: 0.05, Na2O: 4.32, K2O: 3.9, CaO: 1.63, MgO: 0.45, ZnO: 0.7, PbO: 1.06 },
      ...{ Al2O3: 0.14, B2O3: -0.66, BaO: 1.4, ZrO2: 0.23 },
    },
    upTo: { B2O3: 12 },
    lookedUp: ["SiO2"],
    low: ["BaO", "ZrO2"],
  },
  {
    id: "hall",
    name: "Hall, 1930",
    basis: "weight",
    kind: "linear",
    celsius: null,
    madeFor: "glasses and glazes",
    source: "F. P. Hall, Journal of the American Ceramic Society 13 (1930), 182",
    factors: {
      ...{ SiO2: 0.4, B2O3: 0.2, Na2O: 3.8, K2O: 3, CaO: 1.5, MgO: 0.2, ZnO: 1, BaO: 1.2 },
      ...{ PbO: 0.75, Al2O3: 0.17 },
    },
    lookedUp: [],
    low: "all",
  },
  {
    id: "appen",
    name: "Appen, 1961",
    basis: "mole",
    kind: "linear",
    celsius: { from: 20, to: 400 },
    madeFor: "silicate glasses",
    source: "A. A. Appen (1961), Chemie des Glases (1970)",
    // Silica, titania, lead and boron depend on the whole glass: these are their ends (expansion-appen).
    factors: {
      ...{ SiO2: 38, TiO2: 30, ZrO2: -60, SnO2: -45, Al2O3: -30, B2O3: 0, Sb2O3: 75, MgO: 60 },
      ...{ CaO: 130, SrO: 160, BaO: 200, ZnO: 50, CdO: 115, PbO: 130, MnO: 105, CoO: 50 },
      ...{ NiO: 50, CuO: 30, Li2O: 270, Na2O: 395, K2O: 465, P2O5: 140 },
    },
    lookedUp: [],
    low: ["TiO2", "B2O3", "PbO"],
  },
];
