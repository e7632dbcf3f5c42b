import type { Oxide } from "./oxides.ts";
import { type Moles, meltOxides } from "./restating.ts";

/**
 * How far apart two glazes are in chemistry: the root of the summed squares of the differences of
 * their unity formulas in the fluxes, Al2O3, B2O3 and SiO2. What colours or opacifies is not in it,
 * nor are cones, surface or anything else that makes two glazes two.
 *
 * Worked number: SiO2 3.0 against 3.4 and Al2O3 0.3 against 0.6, all else alike, are 0.5 apart.
 */
export const apart = (one: Moles, other: Moles): number =>
  Math.hypot(...meltOxides.map((oxide) => (one[oxide] ?? 0) - (other[oxide] ?? 0)));

/** A difference of less than this in the unity formula is not told: no analysis of a powder sees it. */
const leastTold = 0.005;

/** What another glaze has more or less of, the largest difference first. */
export const differsBy = (from: Moles, to: Moles): { oxide: Oxide; by: number }[] =>
  meltOxides
    .map((oxide) => ({ oxide, by: (to[oxide] ?? 0) - (from[oxide] ?? 0) }))
    .filter(({ by }) => Math.abs(by) >= leastTold)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
