import { Decimal } from "decimal.js";
import type { Money, Price } from "./cost.ts";

/** A powder of a shelf with the pack that it was last bought in. */
export type Pack = { label: string; name: string; price: Price | null };

/** A base by what it takes of each powder, parts of 100. */
export type BaseLines = readonly { readonly label: string; readonly amount: Decimal }[];

/** `known` is one sum a currency, which are never added up; `without` are powders without a price. */
export type ShelfCost = { known: Money[]; without: string[] };

/** What one pack of each powder comes to. */
export function costOfPacks(packs: readonly Pack[]): ShelfCost {
  const sums = new Map<string, Decimal>();
  for (const { price } of packs) {
    if (!price) continue;
    const { currency, packPrice } = price;
    sums.set(currency, (sums.get(currency) ?? new Decimal(0)).plus(packPrice));
  }
  return {
    known: [...sums]
      .map(([currency, amount]) => ({ amount, currency }))
      .sort((a, b) => (a.currency < b.currency ? -1 : 1)),
    without: packs.filter(({ price }) => !price).map(({ name }) => name),
  };
}

/**
 * How many times `grams` of every one of these bases can be weighed out of one pack of each powder:
 * the powder that runs out first decides. null where a pack that is needed is not known.
 *
 * Worked number: from 25 kg of feldspar and 5 kg of kaolin, a base of 40 and 15 is weighed out 333
 * times at 100 g, since 15 g of kaolin come to 5 kg first.
 */
export function timesFromPacks(
  bases: readonly BaseLines[],
  packs: readonly Pack[],
  grams: number,
): number | null {
  const taken = new Map<string, Decimal>();
  for (const base of bases) {
    for (const { label, amount } of base) {
      const grammes = amount.times(grams).div(100);
      taken.set(label, (taken.get(label) ?? new Decimal(0)).plus(grammes));
    }
  }
  let fewest: Decimal | undefined;
  for (const [label, each] of taken) {
    const price = packs.find((pack) => pack.label === label)?.price;
    if (!price) return null;
    if (each.isZero()) continue;
    const times = price.packGrams.divToInt(each);
    if (!fewest || times.lt(fewest)) fewest = times;
  }
  return fewest ? fewest.toNumber() : null;
}
