import { Decimal } from "decimal.js";
import { atomicWeight, type ElementSymbol } from "./elements.ts";

export { oxideRole } from "./oxide-roles.ts";

/**
 * How each oxide that a fired glaze can hold is made up: [the element, its atoms, oxygen's atoms].
 * Each element is reported as one oxide only (iron Fe2O3, manganese MnO, cobalt CoO, copper CuO,
 * nickel NiO, chromium Cr2O3, antimony Sb2O3, vanadium V2O5), whatever it was in the powder.
 * The order is the order of display: fluxes, Al2O3 and B2O3, SiO2, then the others.
 */
export const oxideMakeUp = {
  Li2O: ["Li", 2, 1],
  Na2O: ["Na", 2, 1],
  K2O: ["K", 2, 1],
  MgO: ["Mg", 1, 1],
  CaO: ["Ca", 1, 1],
  SrO: ["Sr", 1, 1],
  BaO: ["Ba", 1, 1],
  ZnO: ["Zn", 1, 1],
  PbO: ["Pb", 1, 1],
  Al2O3: ["Al", 2, 3],
  B2O3: ["B", 2, 3],
  SiO2: ["Si", 1, 2],
  TiO2: ["Ti", 1, 2],
  ZrO2: ["Zr", 1, 2],
  SnO2: ["Sn", 1, 2],
  P2O5: ["P", 2, 5],
  Fe2O3: ["Fe", 2, 3],
  MnO: ["Mn", 1, 1],
  CoO: ["Co", 1, 1],
  CuO: ["Cu", 1, 1],
  NiO: ["Ni", 1, 1],
  Cr2O3: ["Cr", 2, 3],
  V2O5: ["V", 2, 5],
  Pr6O11: ["Pr", 6, 11],
  Nd2O3: ["Nd", 2, 3],
  Er2O3: ["Er", 2, 3],
  CeO2: ["Ce", 1, 2],
  La2O3: ["La", 2, 3],
  Y2O3: ["Y", 2, 3],
  Bi2O3: ["Bi", 2, 3],
  WO3: ["W", 1, 3],
  MoO3: ["Mo", 1, 3],
  Ag2O: ["Ag", 2, 1],
  CdO: ["Cd", 1, 1],
  Sb2O3: ["Sb", 2, 3],
  SeO2: ["Se", 1, 2],
  U3O8: ["U", 3, 8],
} as const satisfies Record<string, readonly [ElementSymbol, number, number]>;

export type Oxide = keyof typeof oxideMakeUp;

/** Every oxide held, in the order of display. */
export const oxides = Object.keys(oxideMakeUp) as Oxide[] as readonly Oxide[];

/** Whether a text names a reporting oxide as written here: `Fe2O3` does, `FeO` and `fe2o3` do not. */
export const isOxide = (text: string): text is Oxide => Object.hasOwn(oxideMakeUp, text);

/**
 * An oxide's molar mass as an exact decimal, g/mol: the sum of its atomic weights (elements.ts).
 * Worked number: SiO2 = 28.085 + 2 × 15.999 = 60.083.
 */
export function exactMolarMass(oxide: Oxide): Decimal {
  const [element, atoms, oxygens] = oxideMakeUp[oxide];
  const metal = new Decimal(atomicWeight[element]).times(atoms);
  return metal.plus(new Decimal(atomicWeight.O).times(oxygens));
}

const forEachOxide = <T>(of: (oxide: Oxide) => T) =>
  Object.fromEntries(oxides.map((oxide) => [oxide, of(oxide)])) as Record<Oxide, T>;

/** Molar masses, g/mol, as float64. */
export const molarMass: Readonly<Record<Oxide, number>> = forEachOxide((oxide) =>
  exactMolarMass(oxide).toNumber(),
);

/** Place of each oxide in the order of display, 0 first; the chemistry counts by it too. */
export const oxidePlace: Readonly<Record<Oxide, number>> = forEachOxide((oxide) =>
  oxides.indexOf(oxide),
);

/** What the unity formula divides by (H. A. Seger's R2O + RO). B2O3 and colourants are outside. */
export const fluxes = [
  "Li2O",
  "Na2O",
  "K2O",
  "MgO",
  "CaO",
  "SrO",
  "BaO",
  "ZnO",
  "PbO",
] as const satisfies readonly Oxide[];

/** R2O, the upper part of the alkali share. */
export const alkalis = ["Li2O", "Na2O", "K2O"] as const satisfies readonly Oxide[];

/** Oxides that colour a glaze, alone or in company. */
export const colouringOxides = [
  "Fe2O3",
  "MnO",
  "CoO",
  "CuO",
  "NiO",
  "Cr2O3",
  "V2O5",
  "Pr6O11",
  "Nd2O3",
  "Er2O3",
  "CdO",
  "SeO2",
  "U3O8",
] as const satisfies readonly Oxide[];
