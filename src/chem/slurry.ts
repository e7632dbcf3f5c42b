import type { Decimal } from "decimal.js";
import type { Fault } from "./analysis.ts";

/**
 * A stirred slurry: its specific gravity, that of the dry powder in it, its litres as it is now,
 * and the gravity it should have.
 */
export type SlurryRequest = {
  specificGravity: Decimal;
  drySpecificGravity: Decimal;
  litres: Decimal;
  targetGravity?: Decimal | undefined;
};

/**
 * Grams, percent by weight and hydrometer degrees, unrounded. `addWaterGrams` is below 0 where
 * water has to come off. `dryPlusMinus` is in grams (k = 2).
 */
export type Slurry = {
  dryGrams: number;
  dryPlusMinus: number;
  waterGrams: number;
  slurryGrams: number;
  drySharePercent: number;
  addWaterGrams?: number;
  twaddell: number;
  baume: number;
  ouncesPerImperialPint: number;
  says: string;
};

const densest = 8;
const mostLitres = 100_000;

/** A weighed measure or a hydrometer is read to about ± 0.005. Common practice, no source. */
const readTo = 0.005;

/** No dry content from a gravity is better known than this share. Common practice, no source. */
const leastShare = 0.03;

/** What a dry content by gravity holds good for. */
export const slurryConditions = "stirred, no froth, little soluble matter";

/** What is wrong with a request; empty where `slurryOf` can answer it. Paths are field names. */
export function faultsOfSlurry(request: SlurryRequest): Fault[] {
  const { specificGravity, drySpecificGravity, litres, targetGravity } = request;
  const faults: Fault[] = [];
  const refuse = (path: keyof SlurryRequest, says: string) => faults.push({ path, says });
  if (!(drySpecificGravity.gt(1) && drySpecificGravity.lte(densest))) {
    refuse(
      "drySpecificGravity",
      `Dry powders have a specific gravity over 1 and up to ${densest}.`,
    );
  } else if (!(specificGravity.gt(1) && specificGravity.lt(drySpecificGravity))) {
    refuse(
      "specificGravity",
      `A slurry lies between water, 1, and its dry powder, ${drySpecificGravity}. Weigh 1 litre in kilograms.`,
    );
  }
  if (!(litres.gt(0) && litres.lte(mostLitres))) {
    refuse("litres", `The slurry has more than 0 and at most ${mostLitres} litres.`);
  }
  if (targetGravity && !targetGravity.gt(1)) {
    refuse("targetGravity", "No amount of water brings a slurry to 1 or below: aim above 1.");
  } else if (targetGravity && !targetGravity.lt(drySpecificGravity)) {
    refuse("targetGravity", `Aim below the dry powder's specific gravity, ${drySpecificGravity}.`);
  }
  return faults;
}

/**
 * What a slurry holds, and the water that brings it to another gravity. Water is taken as 1.000
 * g/ml, S is the dry powder's specific gravity, D the slurry's; the request must have no faults.
 *
 *     dry grams = 1000 × litres × (D − 1) × S/(S − 1)
 *     water to add = 1000 × litres × (D − target)/(target − 1)
 *     °Twaddell = 200 (D − 1); °Baumé = 145 − 145/D; ounces in an imperial pint = 20 D
 *
 * A pint of water is taken as 20 oz, as the trade does; it weighs 20.04. The ± of the dry grams is
 * 3 % or what ± 0.005 on the gravity makes of them, whichever is the larger.
 *
 * Worked number: a pint of 36 oz is D 1.8; with S 2.6 a litre has 1300 g dry, 72.2 % of its weight.
 * Sources: A. Brongniart, "Traité des arts céramiques", 1844 (from memory); US Bureau of Standards,
 * Circular 19, for Baumé's modulus of 145; the definition of Twaddell's degrees.
 */
export function slurryOf(request: SlurryRequest): Slurry {
  const { specificGravity: gravity, drySpecificGravity: dry, litres, targetGravity } = request;
  const solids = gravity.minus(1);
  const dryGrams = solids.times(litres).times(1000).times(dry).div(dry.minus(1));
  const slurryGrams = gravity.times(litres).times(1000);
  const share = Math.max(leastShare, readTo / solids.toNumber());
  return {
    dryGrams: dryGrams.toNumber(),
    dryPlusMinus: share * dryGrams.toNumber(),
    waterGrams: slurryGrams.minus(dryGrams).toNumber(),
    slurryGrams: slurryGrams.toNumber(),
    drySharePercent: dryGrams.times(100).div(slurryGrams).toNumber(),
    ...(targetGravity && { addWaterGrams: waterToAdd(gravity, litres, targetGravity) }),
    twaddell: solids.times(200).toNumber(),
    baume: solids.times(145).div(gravity).toNumber(),
    ouncesPerImperialPint: gravity.times(20).toNumber(),
    says: `The dry content is known to ± ${Number((100 * share).toPrecision(2))} % at best: ${slurryConditions}.`,
  };
}

const waterToAdd = (gravity: Decimal, litres: Decimal, target: Decimal): number =>
  gravity.minus(target).times(litres).times(1000).div(target.minus(1)).toNumber();
