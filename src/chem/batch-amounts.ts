import { Decimal } from "decimal.js";
import { batchSheet } from "./batch.ts";
import { baseTotal, type WeighedLine } from "./lines.ts";

export const weightUnits = ["g", "kg", "lb"] as const;

export type WeightUnit = (typeof weightUnits)[number];

/** The pound is exact by the agreement of 1959: NIST, Special Publication 811, 2008, appendix B. */
const gramsIn: Readonly<Record<WeightUnit, Decimal>> = {
  g: new Decimal(1),
  kg: new Decimal(1000),
  lb: new Decimal("453.59237"),
};

/**
 * A weight in a unit as grams, to the nearest step of the scale, halves up.
 *
 * Worked number: 10 lb are 4535.9237 g, 4535.9 g on a scale of 0.1 g.
 */
export const gramsOf = (weight: Decimal, unit: WeightUnit, scaleGrams: Decimal): Decimal =>
  weight
    .times(gramsIn[unit])
    .div(scaleGrams)
    .toDecimalPlaces(0, Decimal.ROUND_HALF_UP)
    .times(scaleGrams);

/**
 * A weight in a unit as grams, to the last digit.
 *
 * Worked number: 0.001 lb is 0.45359237 g.
 */
export const exactGrams = (weight: Decimal, unit: WeightUnit): Decimal =>
  weight.times(gramsIn[unit]);

/**
 * Grams in another unit, to the thousandth of it.
 *
 * Worked number: 1000 g are 2.205 lb.
 */
export const inUnit = (grams: Decimal, unit: WeightUnit): Decimal =>
  grams.div(gramsIn[unit]).toDecimalPlaces(unit === "g" ? 4 : 3, Decimal.ROUND_HALF_UP);

/**
 * The base that uses up what there is of one powder: as many grams, in whole steps of the scale, as
 * keep what is to be weighed of it, base and additions together, within `have`. Zero where not even
 * one step can be weighed.
 *
 * Worked number: of 830 g of a powder that is 20 of a base of 100, 4150 g.
 */
export function baseThatUsesUp<Line extends WeighedLine>(order: {
  lines: readonly Line[];
  isIt: (line: Line) => boolean;
  have: Decimal;
  scaleGrams: Decimal;
}): Decimal {
  const { lines, isIt, have, scaleGrams } = order;
  const share = lines.filter(isIt).reduce((sum, { amount }) => sum.plus(amount), new Decimal(0));
  if (share.isZero()) return new Decimal(0);
  let grams = have
    .times(baseTotal(lines))
    .div(share)
    .div(scaleGrams)
    .toDecimalPlaces(0, Decimal.ROUND_DOWN)
    .times(scaleGrams);
  // Rounding a line up may ask for a step more than there is.
  while (grams.gt(0) && taken({ lines, isIt, grams, scaleGrams }).gt(have))
    grams = grams.minus(scaleGrams);
  return grams;
}

function taken<Line extends WeighedLine>(order: {
  lines: readonly Line[];
  isIt: (line: Line) => boolean;
  grams: Decimal;
  scaleGrams: Decimal;
}): Decimal {
  const sheet = batchSheet(order);
  // What is wrong with such a batch is for whoever weighs it to be told.
  if (sheet.kind === "refused") return new Decimal(0);
  return sheet.lines
    .filter(({ line }) => order.isIt(line))
    .reduce((sum, { grams }) => sum.plus(grams), new Decimal(0));
}
