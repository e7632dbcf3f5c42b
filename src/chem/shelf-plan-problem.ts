import { Decimal } from "decimal.js";
import type { Analysis } from "./analysis.ts";
import type { ChemistryLine } from "./chemistry-types.ts";
import { type Price, pricePerGram } from "./cost.ts";
import { oxides } from "./oxides.ts";
import { powderOf } from "./powder.ts";
import { isFlux } from "./shelf-tolerance.ts";
import { molesPerGram } from "./unity-base.ts";

/**
 * Moles of each oxide in 100 g of a powder as weighed, by the place of the oxide.
 * Worked number: 100 g of CaCO3 bring 0.999 mol CaO.
 */
export function molesOfPowder(analysis: Analysis): number[] {
  const { places, percent } = powderOf(analysis);
  const moles = new Array<number>(oxides.length).fill(0);
  for (let at = 0; at < places.length; at++) {
    const place = places[at] ?? 0;
    moles[place] = (moles[place] ?? 0) + (percent[at] ?? 0) * (molesPerGram[place] ?? 0);
  }
  return moles;
}

/** The unity formula of a base without its additions, by place; null where it has no flux. */
export function wantedOf(lines: readonly Pick<ChemistryLine, "part" | "amount" | "analysis">[]) {
  const moles = new Array<number>(oxides.length).fill(0);
  for (const { part, amount, analysis } of lines) {
    if (part !== "base" || !analysis) continue;
    const brought = molesOfPowder(analysis);
    const hundreds = amount.toNumber() / 100;
    for (let place = 0; place < moles.length; place++) {
      moles[place] = (moles[place] ?? 0) + hundreds * (brought[place] ?? 0);
    }
  }
  const flux = moles.reduce((sum, each, place) => sum + each * (isFlux[place] ?? 0), 0);
  return flux > 0 ? moles.map((each) => each / flux) : null;
}

/** What a gram costs in whole millionths of a currency; null in another currency or without a price. */
export function microsPerGram(price: Price | null | undefined, currency: string | undefined) {
  if (!price || price.currency !== currency) return null;
  return pricePerGram(price).times(1_000_000).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
}

/** Prices have four decimals at most. */
export const perCurrency = 10_000;

/** What a pack costs in whole ten-thousandths of a currency; null as above. */
export function packPrice(price: Price | null | undefined, currency: string | undefined) {
  if (!price || price.currency !== currency) return null;
  return price.packPrice.times(perCurrency).ceil().toNumber();
}
