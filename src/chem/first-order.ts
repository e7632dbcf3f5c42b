import type { Melt } from "./melt.ts";

/**
 * Up to this ± of the flux sum, as a share of it (k = 2), first order gives the ± of a unity formula
 * to 5 %. Computed: what is divided by 1 ∓ r reaches from 1/(1 + r) to 1/(1 − r), half of which is
 * r/(1 − r²), and r²/(1 − r²) is 4.2 % at r = 0.2.
 */
export const mostFluxDoubt = 0.2;

/** `share` is the ± of the flux sum over the flux sum, k = 2; `enough` where first order will do. */
export type FirstOrder = { enough: boolean; share: number; limit: number };

/**
 * Whether the ± of a unity formula can be believed. It is worked out to first order (JCGM 100:2008,
 * 5.1.2), which fails where the fluxes are so few that their own ± comes near to them: the true
 * interval is then wider and lopsided, as a Monte Carlo run of the same unknowns shows (JCGM
 * 101:2008).
 *
 * @param inMoles moles in a gram, by place. @param inUnity 1 where an oxide is in the base, by place.
 * @returns null where the melt has no flux, and so no unity formula.
 *
 * Worked number: a slip whose only flux is K2O 0.5 ± 0.15 % has a share of 0.3: not enough.
 */
export function firstOrderOf(
  melt: Melt,
  inMoles: Float64Array,
  inUnity: Uint8Array,
): FirstOrder | null {
  let [base, squares] = [0, 0];
  const members = melt.present.filter((place) => inUnity[place]);
  for (const place of members) {
    const coefficient = inMoles[place] ?? 0;
    base += coefficient * (melt.masses[place] ?? 0);
    squares += coefficient * coefficient * (melt.massVariance[place] ?? 0);
  }
  for (const { masses } of melt.pulls) {
    const moved = members.reduce(
      (sum, place) => sum + (inMoles[place] ?? 0) * (masses[place] ?? 0),
      0,
    );
    squares += moved * moved;
  }
  if (base <= 0) return null;
  const share = Math.sqrt(squares) / base;
  return { enough: share <= mostFluxDoubt, share, limit: mostFluxDoubt };
}
