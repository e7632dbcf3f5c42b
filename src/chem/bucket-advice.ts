import type { Decimal } from "decimal.js";
import { type Band, bandWords, isAbove, isBelow, middleOf } from "./bands.ts";
import { type FlowState, flowAdvice } from "./bucket-flow.ts";

/** How a bucket should be; null where nobody said. */
export type BucketTarget = { gravity: Band | null; flow: Band | null; coat: Band | null };

/** What was measured of a bucket at one time: seconds of flow, millimetres of a dried coat. */
export type MeasuredBucket = FlowState & { specificGravity: Decimal; litres: Decimal };

export type BucketAdvice = {
  kind:
    | "stir first"
    | "measure again"
    | "no target"
    | "add water"
    | "powder missing"
    | "do not add water"
    | "right";
  /** What to do, in the order in which to do it. */
  says: string[];
  /** What can hurt, or spoil the bucket, while doing it. */
  cautions: string[];
  /** To the middle of the band, and the least and most that bring it into the band; grams. */
  addWaterGrams?: { middle: number; least: number; most: number };
  /** What has to come off, where nothing in the recipe dissolves; grams. */
  waterOffGrams?: number;
  /** Dry powder of the recipe that brings it to the middle of the band; grams. */
  topUpGrams?: number;
};

type Judged = {
  measured: MeasuredBucket;
  target: BucketTarget;
  /** Of the dry powder in it. */
  dryGravity: Decimal;
  /** Whether a line of the recipe dissolves in the glaze water. */
  dissolves: boolean;
  /** Whether something went into the bucket after it was measured. */
  changedSince: boolean;
};

/**
 * What to do with a bucket after it was measured: stir, water, powder, or a drop of something else,
 * and in that order. Gravity comes first, since a flow at the wrong gravity says nothing; in gravity
 * but out of flow no water goes in. Common practice, no source, but for the sums.
 *
 *     water to add = 1000 × litres × (SG − target)/(target − 1), litres as the slurry is now
 *     powder to add = 1000 × litres × (target − SG) × S/(S − target), S of the dry powder
 *
 * Worked number: 10 litres of 1.60 for a band of 1.43 to 1.47 take 3333 g of water to its middle,
 * 1.45; 2766 g bring it into the band and 3953 g take it to its lower end. 10 litres of 1.40 want
 * 1111 g of water off, or 1104 g of a powder of 2.65.
 */
export function bucketAdvice(judged: Judged): BucketAdvice {
  const { measured, target, dryGravity, changedSince } = judged;
  const { specificGravity, stirred } = measured;
  if (!stirred)
    return told(
      "stir first",
      "It was not stirred, so this reading says nothing of it. Stir it from the bottom and measure again.",
    );
  if (changedSince)
    return told(
      "measure again",
      "Something went in after this was measured. Stir it from the bottom and measure again.",
    );
  if (specificGravity.lte(1))
    return told(
      "measure again",
      "This is the gravity of water or less: stir it from the bottom, let froth go, and measure again.",
    );
  if (specificGravity.gte(dryGravity))
    return told(
      "measure again",
      `No slurry is as heavy as its dry powder, ${dryGravity.toDecimalPlaces(2)}. Weigh a litre of it again.`,
    );
  if (!target.gravity)
    return told(
      "no target",
      "Nobody has said which gravity this bucket should have, so nobody can tell whether it wants water.",
    );
  if (isAbove(specificGravity, target.gravity)) return tooHeavy(measured, target.gravity);
  if (isBelow(specificGravity, target.gravity)) return tooLight(judged, target.gravity);
  return flowAdvice(measured, target) ?? told("right", "It is as it should be. Leave it.");
}

const told = (kind: BucketAdvice["kind"], ...says: string[]): BucketAdvice => ({
  kind,
  says,
  cautions: [],
});

function tooHeavy({ specificGravity, litres }: MeasuredBucket, band: Band): BucketAdvice {
  const to = (target: Decimal) =>
    specificGravity.minus(target).times(litres).times(1000).div(target.minus(1)).toNumber();
  const water = { middle: to(middleOf(band)), least: to(band.high), most: to(band.low) };
  return {
    kind: "add water",
    says: [
      `Its gravity, ${specificGravity}, is over ${bandWords(band)}. Add ${grams(water.middle)} of water for ${middleOf(band)}: ${grams(water.least)} bring it into its band, and more than ${grams(water.most)} would take it out below.`,
      "Add half of it first, stir, and measure again; what is in cannot be taken out.",
    ],
    cautions: [],
    addWaterGrams: water,
  };
}

function tooLight({ measured, dryGravity, dissolves }: Judged, band: Band): BucketAdvice {
  const { specificGravity, litres } = measured;
  const target = middleOf(band);
  const missing = target.minus(specificGravity).times(litres).times(1000);
  const off = missing.div(target.minus(1)).toNumber();
  const dry = target.lt(dryGravity)
    ? missing.times(dryGravity).div(dryGravity.minus(target)).toNumber()
    : undefined;
  const says = [
    `Its gravity, ${specificGravity}, is under ${bandWords(band)}: powder is missing, or it lies at the bottom. Stir it from the bottom, sieve it, and measure again.`,
  ];
  const cautions: string[] = [];
  if (!dissolves) {
    says.push(
      `Still under: let it settle, and take ${grams(off)} of clear water off the top for ${target}.`,
    );
    cautions.push(wasteWater);
  }
  if (dry !== undefined) {
    says.push(`${dissolves ? "Still under: mix" : "Or mix"} ${grams(dry)} of its powders into it.`);
    cautions.push(dust);
  }
  if (dissolves) cautions.push(neverOff);
  return {
    kind: "powder missing",
    says,
    cautions,
    ...(!dissolves && { waterOffGrams: off }),
    ...(dry !== undefined && { topUpGrams: dry }),
  };
}

const grams = (value: number): string => `${value.toFixed(0)} g`;

/** Why no water comes off a bucket whose recipe has lines that dissolve. */
export const neverOff =
  "Part of this recipe is dissolved in its water: water that is poured off takes it along and leaves another glaze. Never pour water off this bucket.";

const wasteWater =
  "Water that comes off holds glaze: it is collected and handed in by local rules, never poured down the drain.";

const dust =
  "Dry powders make dust that harms lungs: wear a fitted respirator, and wet the powder before it goes in.";
