import { Decimal } from "decimal.js";
import type { Fault } from "./analysis.ts";
import { dryGravityOf, dryGravityWords, type SlurriedLine } from "./blend-slurries.ts";
import { additionsTotal, baseTotal } from "./lines.ts";
import { faultsOfSlurry, slurryOf } from "./slurry.ts";

/** How much slurry of which gravity a batch is to make. */
export type Fill = {
  litres: Decimal;
  specificGravity: Decimal;
  /** Where it is known of the whole recipe; else it follows from the powders. */
  drySpecificGravity?: Decimal | undefined;
};

export type FilledBatch =
  | {
      kind: "filled";
      /** Of the base, a multiple of the scale's step. */
      grams: Decimal;
      /** To the tenth of a gram. */
      waterGrams: Decimal;
      drySpecificGravity: Decimal;
      /** What was assumed of the powders, and how well a dry content by gravity is known. */
      says: string;
    }
  | { kind: "refused"; faults: Fault[] };

/**
 * The base that fills a bucket with slurry of a gravity, and the water for it.
 *
 *     total dry = 1000 × litres × (SG − 1) × S/(S − 1), base = total dry × base/(base + additions)
 *
 * The base is rounded to the scale, half up; the water is what the slurry weighs without the dry.
 *
 * Worked number: 10 litres of 1.45 with S 2.65 have 7227.3 g dry and 7272.7 g of water; of a recipe
 * with 100 base and 4 additions 6949 g are base on a scale of 1 g.
 */
export function filledBatch(order: {
  lines: readonly SlurriedLine[];
  fill: Fill;
  scaleGrams: Decimal;
}): FilledBatch {
  const { lines, fill, scaleGrams } = order;
  const drySpecificGravity = fill.drySpecificGravity ?? dryGravityOf(lines).value;
  const request = {
    litres: fill.litres,
    specificGravity: fill.specificGravity,
    drySpecificGravity,
  };
  const faults = faultsOfSlurry(request).map((fault) => ({ ...fault, path: `fill.${fault.path}` }));
  if (faults.length > 0) return { kind: "refused", faults };
  const solids = fill.specificGravity.minus(1);
  const dry = solids
    .times(fill.litres)
    .times(1000)
    .times(drySpecificGravity)
    .div(drySpecificGravity.minus(1));
  const base = baseTotal(lines);
  const ofBase = dry.times(base).div(base.plus(additionsTotal(lines)));
  const grams = ofBase.div(scaleGrams).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).times(scaleGrams);
  if (grams.isZero()) {
    const says = "So little slurry is less than one step of this scale. Fill more, or weigh finer.";
    return { kind: "refused", faults: [{ path: "fill.litres", says }] };
  }
  const slurry = fill.specificGravity.times(fill.litres).times(1000);
  const gravitySays = fill.drySpecificGravity
    ? `The dry powder's specific gravity is ${drySpecificGravity.toDecimalPlaces(3)}.`
    : dryGravityWords(lines);
  return {
    kind: "filled",
    grams,
    waterGrams: slurry.minus(dry).toDecimalPlaces(1, Decimal.ROUND_HALF_UP),
    drySpecificGravity,
    says: `${gravitySays} ${slurryOf(request).says}`,
  };
}
