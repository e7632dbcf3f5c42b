import { Decimal } from "decimal.js";
import type { Analysis } from "./analysis.ts";
import { fluxes, type Oxide, oxides } from "./oxides.ts";
import { powderOf } from "./powder.ts";
import { shareOut } from "./shares.ts";
import { molesPerGram } from "./unity-base.ts";

/** Moles by oxide; what is not listed is 0. */
export type Moles = Readonly<Partial<Record<Oxide, number>>>;

/**
 * A powder that a glaze may be restated from: `moles` in 100 g as weighed, `loss` in percent. What a
 * kilogram costs is there where cost counts, in one currency for all.
 */
export type Restatable = {
  key: string;
  name: string;
  moles: Moles;
  loss: number;
  perKilogram?: number | undefined;
};

/** A powder as restating counts it. Worked number: 100 g of CaCO3 bring 0.999 moles of CaO. */
export function restatable(material: {
  key: string;
  name: string;
  analysis: Analysis;
  perKilogram?: number | undefined;
}): Restatable {
  const { key, name, analysis, perKilogram } = material;
  const { listed, places, percent, loss } = powderOf(analysis);
  const moles: Partial<Record<Oxide, number>> = {};
  listed.forEach((oxide, at) => {
    const each = (percent[at] ?? 0) * (molesPerGram[places[at] ?? 0] ?? 0);
    if (each !== 0) moles[oxide] = each;
  });
  return { key, name, moles, loss, perKilogram };
}

/** Moles of all fluxes together. */
export const fluxMoles = (moles: Moles): number =>
  fluxes.reduce((sum, oxide) => sum + (moles[oxide] ?? 0), 0);

/** Moles of each oxide for one of flux in a mix, amounts in any one measure; null without a flux. */
export function unityOfMix(mix: readonly { moles: Moles; amount: number }[]): Moles | null {
  const sums: Partial<Record<Oxide, number>> = {};
  for (const { moles, amount } of mix) {
    for (const oxide of Object.keys(moles) as Oxide[])
      sums[oxide] = (sums[oxide] ?? 0) + amount * (moles[oxide] ?? 0);
  }
  const base = fluxMoles(sums);
  if (!(base > 0)) return null;
  const present = oxides.filter((oxide) => sums[oxide] !== undefined);
  return Object.fromEntries(present.map((oxide) => [oxide, (sums[oxide] ?? 0) / base]));
}

/** What melts and what stiffens a melt: every oxide of the trade's three columns but the rarer ones. */
export const meltOxides = [...fluxes, "Al2O3", "B2O3", "SiO2"] as const satisfies readonly Oxide[];

/** Which oxides a typed unity formula is held to, beside those that it names. */
const heldWithUnity: readonly Oxide[] = meltOxides;

/**
 * The oxides whose misses count. A target of lines wants 0 of every oxide that it lacks; a typed
 * unity formula says that only of the fluxes, Al2O3, B2O3 and SiO2, and leaves the others free.
 */
export const countedOxides = (from: "lines" | "unity", wanted: Moles): Oxide[] =>
  from === "lines"
    ? [...oxides]
    : oxides.filter((oxide) => wanted[oxide] !== undefined || heldWithUnity.includes(oxide));

/** What a miss is measured in: the wanted moles, or 0.1 where less is wanted. */
export const missScale = (wanted: number): number => Math.max(wanted, 0.1);

/** How far a result is off, in parts of what is wanted. Worked number: 0.33 for 0.30 is 0.1. */
export const missOf = (wanted: number, got: number): number =>
  Math.abs(got - wanted) / missScale(wanted);

/** Decimals of a restated amount: enough that the printed amounts give the unity formula to 1e-6. */
export const amountDecimals = 8;

/** The largest miss that still counts as the same formula. */
export const exactWithin = 1e-6;

/**
 * Amounts as a recipe writes them: a base of exactly 100, eight decimals, largest remainders first.
 * What comes to nothing is left out.
 */
export function basePercents<Of extends { amount: number }>(
  mix: readonly Of[],
): { of: Of; amount: Decimal }[] {
  const steps = new Decimal(100).times(new Decimal(10).pow(amountDecimals));
  const shares = shareOut(
    mix.map(({ amount }) => new Decimal(amount)),
    steps,
  );
  return mix
    .map((of, at) => ({ of, amount: (shares[at] ?? new Decimal(0)).times(100).div(steps) }))
    .filter(({ amount }) => amount.gt(0));
}
