import { Decimal } from "decimal.js";
import { type Price, pricePerGram } from "./cost.ts";
import { columnOf } from "./money-text.ts";

/** So much of a powder, and what a pack of it costs; all prices are in one currency. */
export type DryLine = { name: string; grams: Decimal; price: Price | null };

/** `known` is what the priced lines come to, and less than all where some are `without` a price. */
export type DryCost<Line> = {
  grams: Decimal;
  lines: (Line & { cost: Decimal | null })[];
  known: Decimal;
  perKilogram: Decimal;
  /** The powders without a price, each once. */
  without: string[];
};

/**
 * What dry powders cost, and what a kilogram of the mixture does, base and additions alike. Sums are
 * unrounded; where a powder has no price they are the least that it costs.
 *
 * @returns null where the lines weigh nothing.
 *
 * Worked number: 600 g at 1.26 a kilogram and 400 g at 1.08 are 0.756 and 0.432, 1.188 a kilogram.
 */
export function costOfDry<Line extends DryLine>(lines: readonly Line[]): DryCost<Line> | null {
  const grams = Decimal.sum(0, ...lines.map((line) => line.grams));
  if (grams.isZero()) return null;
  const costed = lines.map((line) => ({
    ...line,
    cost: line.price && line.grams.times(pricePerGram(line.price)),
  }));
  const known = Decimal.sum(0, ...costed.flatMap(({ cost }) => cost ?? []));
  return {
    grams,
    lines: costed,
    known,
    perKilogram: known.times(1000).div(grams),
    without: [...new Set(lines.filter(({ price }) => !price).map(({ name }) => name))],
  };
}

/**
 * Grams of dry powder in a litre of slurry, 1000 × (D − 1) × S/(S − 1), from its gravity D and that of
 * the dry powder S (A. Brongniart, "Traité des arts céramiques", 1844, from memory).
 *
 * Worked number: gravity 1.45 with S 2.65 is 722.7 g.
 */
export const dryInLitre = (gravity: Decimal, dryGravity: Decimal): Decimal =>
  gravity.minus(1).times(1000).times(dryGravity).div(dryGravity.minus(1));

/**
 * What each of several has to pay of a whole, in hundredths that add up to it: what is left over goes
 * one by one to the first of the largest remainders.
 *
 * Worked number: 10.00 in three equal parts is 3.34, 3.33 and 3.33.
 */
export function sharesOf(whole: Decimal, parts: readonly number[]): Decimal[] {
  const all = parts.reduce((sum, part) => sum + part, 0);
  return columnOf(
    parts.map((part) => whole.times(part).div(all)),
    2,
  ).amounts;
}
