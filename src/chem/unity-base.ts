import type { Iron, UnityBase, UnityOxide } from "./chemistry-types.ts";
import { fluxes, molarMass, type Oxide, oxidePlace, oxides } from "./oxides.ts";

/** Colouring oxides that melt as fluxes do; with them FeO, where iron is counted so. */
export const colouringFluxes = ["MnO", "CoO", "CuO", "NiO"] as const satisfies readonly Oxide[];

const places = (members: readonly Oxide[]): Uint8Array => {
  const flags = new Uint8Array(oxides.length);
  for (const oxide of members) flags[oxidePlace[oxide]] = 1;
  return flags;
};

/** By place: 1 for every oxide. */
export const everyOxide: Uint8Array = places(oxides);

/** By place: 1 g of a weight is 1. */
export const perGram: Float64Array = new Float64Array(oxides.length).fill(1);

/** By place: moles in a gram. */
export const molesPerGram: Float64Array = Float64Array.from(
  oxides,
  (oxide) => 1 / molarMass[oxide],
);

/** By place: the same with each Fe2O3 counted as two FeO. */
export const molesPerGramAsFeO: Float64Array = Float64Array.from(
  oxides,
  (oxide) => (oxide === "Fe2O3" ? 2 : 1) / molarMass[oxide],
);

/** By place: the coefficients of some oxides, and 0 for all others. */
export function only(members: readonly Oxide[], coefficients: Float64Array): Float64Array {
  const flags = places(members);
  return coefficients.map((each, place) => each * (flags[place] ?? 0));
}

const bases = {
  "fluxes Fe2O3": places(fluxes),
  "fluxes FeO": places(fluxes),
  "fluxes-and-colour Fe2O3": places([...fluxes, ...colouringFluxes]),
  "fluxes-and-colour FeO": places([...fluxes, ...colouringFluxes, "Fe2O3"]),
};

/** By place: 1 for what the unity formula divides by. */
export const unityBase = (unity: UnityBase, iron: Iron): Uint8Array => bases[`${unity} ${iron}`];

const molesOfBases = new Map<Uint8Array, Float64Array>();
for (const [name, base] of Object.entries(bases)) {
  const perOxide = name.endsWith("FeO") ? molesPerGramAsFeO : molesPerGram;
  molesOfBases.set(
    base,
    perOxide.map((each, place) => each * (base[place] ?? 0)),
  );
}

/** By place: moles in a gram of what the unity formula divides by, and 0 for the rest. */
export const molesOfBase = (unity: UnityBase, iron: Iron): Float64Array =>
  molesOfBases.get(unityBase(unity, iron)) ?? new Float64Array(oxides.length);

/** What an oxide is called in the unity formula. */
export const unityName = (oxide: Oxide, iron: Iron): UnityOxide =>
  oxide === "Fe2O3" ? iron : oxide;
