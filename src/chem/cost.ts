import { Decimal } from "decimal.js";
import { baseTotal, type WeighedLine } from "./lines.ts";

/** What a pack of a powder was bought for, in a currency by its three letters (ISO 4217). */
export type Price = { packGrams: Decimal; packPrice: Decimal; currency: string };

export type PricedLine = WeighedLine & { readonly name: string; readonly price: Price | null };

export type Money = { amount: Decimal; currency: string };

/**
 * `total` is there only where every line has a price and all are in one currency. `known` is what the
 * priced lines come to, one sum a currency in the order of the letters; `without` names the powders
 * that have no price, each once.
 */
export type Cost = { grams: Decimal; total: Money | null; known: Money[]; without: string[] };

/**
 * What a gram of a powder cost.
 *
 * Worked number: a pack of 25 kg for 30 is 0.0012 a gram, 1.20 a kilogram.
 */
export const pricePerGram = ({ packGrams, packPrice }: Price): Decimal => packPrice.div(packGrams);

/**
 * What so many grams of base cost to weigh out, with the additions that belong to them.
 *
 *     cost = Σ over the lines of  amount × grams ÷ base  ×  pack price ÷ pack weight
 *
 * What is spilt, dried in the sieve or left in the bag does not count. Sums are unrounded; sums of
 * different currencies are never added up.
 *
 * @param grams of base, 100 where nothing is said; additions come on top.
 * @returns null where the base totals 0.
 *
 * Worked number: 60 feldspar at 30 for 25 kg and 40 whiting at 9 for 10 kg, with 2 iron oxide at 12 for
 * 1 kg: 60 × 0.0012 + 40 × 0.0009 + 2 × 0.012 = 0.132 for 100 g of base.
 */
export function costOf(lines: readonly PricedLine[], grams = new Decimal(100)): Cost | null {
  const base = baseTotal(lines);
  if (base.isZero()) return null;
  const sums = new Map<string, Decimal>();
  for (const { amount, price } of lines) {
    if (!price) continue;
    const cost = amount.times(grams).div(base).times(pricePerGram(price));
    sums.set(price.currency, (sums.get(price.currency) ?? new Decimal(0)).plus(cost));
  }
  const known = [...sums]
    .map(([currency, amount]) => ({ amount, currency }))
    .sort((a, b) => (a.currency < b.currency ? -1 : 1));
  const without = [...new Set(lines.filter(({ price }) => !price).map(({ name }) => name))];
  const whole = without.length === 0 && known.length === 1;
  return { grams, total: whole ? (known[0] ?? null) : null, known, without };
}
