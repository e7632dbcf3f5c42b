import { Decimal } from "decimal.js";

/** A sixteenth of the pound of 1959, 453.59237 g: NIST, Special Publication 811, 2008, appendix B. */
const gramsInOunce = new Decimal("453.59237").div(16);

/**
 * Thousandths of an ounce are 0.03 g: turned back, such a figure is on the same step of a scale that
 * shows tenths of a gram.
 */
const places = 3;

/** Grams in ounces, to the thousandth, halves up. Worked number: 500 g are 17.637 oz. */
export const ouncesOf = (grams: Decimal): Decimal =>
  grams.div(gramsInOunce).toDecimalPlaces(places, Decimal.ROUND_HALF_UP);

/** Ounces in grams, unrounded. Worked number: 16 oz are 453.59237 g. */
export const gramsOfOunces = (ounces: Decimal): Decimal => ounces.times(gramsInOunce);

/**
 * Weights of one column in ounces, to the thousandth, so that the figures as printed add up to the
 * total as printed, and so do those of the first few to their subtotal. Each figure is what its
 * weight adds to the rounded sum, which is off by less than a thousandth.
 *
 * Worked number: three times 10 g are 0.353, 0.352 and 0.353 oz, and 30 g are 1.058 oz.
 */
export function ouncesColumn(grams: readonly Decimal[]): Decimal[] {
  let sum = new Decimal(0);
  let printed = new Decimal(0);
  return grams.map((each) => {
    sum = sum.plus(each);
    const before = printed;
    printed = ouncesOf(sum);
    return printed.minus(before);
  });
}

/** Ounces in whole pounds and the ounces left. Worked number: 17.637 oz are 1 lb 1.637 oz. */
export const poundsAndOunces = (ounces: Decimal): { pounds: Decimal; ounces: Decimal } => ({
  pounds: ounces.div(16).floor(),
  ounces: ounces.mod(16),
});
