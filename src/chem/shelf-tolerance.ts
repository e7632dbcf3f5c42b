import { colouringOxides, fluxes, type Oxide, oxidePlace, oxides } from "./oxides.ts";
import type { PlanPowder } from "./shelf-plan-types.ts";

/** What an oxide may be off where little of it is wanted, moles for each mole of flux. */
export const leastTolerance = 0.01;

/** Oxides that change what a glaze is, or what it may be used for, in traces already. */
const telling: ReadonlySet<Oxide> = new Set<Oxide>([
  "Li2O",
  "BaO",
  "SrO",
  "ZnO",
  "PbO",
  ...colouringOxides,
]);

/** Where one of them is not wanted it stays below this. */
export const leastTelling = 0.002;

/** Keeps “below” below, through every rounding of the search. */
const below = leastTelling - 2e-9;

/**
 * How far the oxide at a place may be from what is wanted: `within` of it and at least 0.01; lithia,
 * baryta, strontia, zinc, lead, cadmium and colouring oxides that are not wanted stay below 0.002.
 *
 * Worked number: within 0.05 of SiO2 3.0 is 2.85 to 3.15, of K2O 0.1 it is 0.09 to 0.11.
 */
export function toleranceAt(place: number, wanted: number, within: number): number {
  if (wanted === 0 && telling.has(oxides[place] as Oxide)) return below;
  return Math.max(within * wanted, leastTolerance);
}

/** By place: 1 for each flux. */
export const isFlux: Uint8Array = Uint8Array.from(oxides, (oxide) =>
  fluxes.some((flux) => flux === oxide) ? 1 : 0,
);

export type ReachRow = {
  readonly kind: "most" | "least" | "flux";
  /** Of the oxide; -1 for the sum of the fluxes. */
  readonly place: number;
  /** By powder. */
  readonly coefficients: Float64Array;
  readonly most: number;
};

/**
 * What a mix of powders has to meet to be a recipe's base restated, as rows `coefficients · x ≤ most`
 * over hundreds of grams of each powder: fluxes that sum to 1, and every oxide within its tolerance.
 */
export function reachRows(
  wanted: readonly number[],
  powders: readonly Pick<PlanPowder, "moles">[],
  within: number,
): ReachRow[] {
  const flux = Float64Array.from(powders, ({ moles }) =>
    moles.reduce((sum, each, place) => sum + each * (isFlux[place] ?? 0), 0),
  );
  const rows: ReachRow[] = [
    { kind: "flux", place: -1, coefficients: flux, most: 1 },
    { kind: "flux", place: -1, coefficients: flux.map((each) => -each), most: -1 },
  ];
  for (let place = 0; place < oxides.length; place++) {
    const want = wanted[place] ?? 0;
    const brought = Float64Array.from(powders, ({ moles }) => moles[place] ?? 0);
    if (want === 0 && brought.every((each) => each === 0)) continue;
    const tolerance = toleranceAt(place, want, within);
    rows.push({ kind: "most", place, coefficients: brought, most: want + tolerance });
    if (want - tolerance > 0) {
      const coefficients = brought.map((each) => -each);
      rows.push({ kind: "least", place, coefficients, most: -(want - tolerance) });
    }
  }
  return rows;
}

/** The unity formula of a mix, by place; null where it brings no flux. Amounts in any one measure. */
export function unityOfMix(
  amounts: ArrayLike<number>,
  powders: readonly Pick<PlanPowder, "moles">[],
): number[] | null {
  const moles = new Array<number>(oxides.length).fill(0);
  for (let at = 0; at < powders.length; at++) {
    const amount = amounts[at] ?? 0;
    if (amount === 0) continue;
    for (let place = 0; place < moles.length; place++) {
      moles[place] = (moles[place] ?? 0) + amount * (powders[at]?.moles[place] ?? 0);
    }
  }
  const flux = moles.reduce((sum, each, place) => sum + each * (isFlux[place] ?? 0), 0);
  return flux > 0 ? moles.map((each) => each / flux) : null;
}

/** Whether a unity formula is another within the tolerance, with nothing left to rounding. */
export const isWithin = (got: readonly number[], wanted: readonly number[], within: number) =>
  got.every((each, place) => {
    const want = wanted[place] ?? 0;
    return Math.abs(each - want) <= toleranceAt(place, want, within) + 1e-9;
  });

/** The largest miss of a mix: |got − wanted| over what is wanted, or over 0.1 where that is more. */
export const worstMiss = (got: readonly number[], wanted: readonly number[]): number =>
  got.reduce((worst, each, place) => {
    const want = wanted[place] ?? 0;
    return Math.max(worst, Math.abs(each - want) / Math.max(want, 0.1));
  }, 0);

/** The place of an oxide, for whoever speaks of one by its name. */
export const placeOf = (oxide: Oxide): number => oxidePlace[oxide];
