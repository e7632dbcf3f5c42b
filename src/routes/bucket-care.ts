import { type BucketAdvice, type BucketTarget, bucketAdvice } from "../chem/bucket-advice.ts";
import { faultsOfSlurry, type Slurry, slurryOf } from "../chem/slurry.ts";
import { type BucketAddition, listAdditions } from "../db/bucket-additions.ts";
import { type FoundDirections, findDirections } from "../db/bucket-directions.ts";
import { type BucketPowders, findBucketPowders } from "../db/bucket-powders.ts";
import { type BucketReading, findLastReadings, listReadings } from "../db/bucket-readings.ts";
import { findLastMixed } from "../db/last-mixed.ts";
import type { Ctx } from "../wire/context.ts";

/** A reading with what it says of the powder in the bucket; null where it measured no gravity. */
export type WeighedReading = BucketReading & { dry: Slurry | null };

/** How a bucket is kept: what was measured of it, what to do now, and how it should be. */
export type BucketCare = {
  readings: WeighedReading[];
  furtherReadings: string | null;
  /** Of the newest reading that measured it; null where nobody has. */
  advice: BucketAdvice | null;
  directions: FoundDirections | null;
  additions: BucketAddition[];
  powders: BucketPowders;
};

const mostReadings = 50;
const mostAdditions = 50;

/** All that a bucket's page and JSON tell of its care. */
export async function careOf(c: Ctx, { id }: { id: string }): Promise<BucketCare> {
  const { db } = c.var;
  const powders = (await findBucketPowders(db, [id])).get(id);
  if (!powders) throw new Error("a bucket follows a revision that has lines");
  const { items, next } = await listReadings(db, { bucketId: id, limit: mostReadings });
  const measured = (await findLastReadings.measured(db, [id])).get(id);
  const additions = await listAdditions(db, { bucketId: id, limit: mostAdditions });
  const mixed = (await findLastMixed(db, [id])).get(id);
  const directions = (await findDirections(db, [id])).get(id) ?? null;
  const changed = [additions[0]?.at, mixed].filter((at) => at !== undefined);
  const changedSince = measured !== undefined && changed.some((at) => at > measured.at);
  return {
    readings: items.map((reading) => weighed(reading, powders)),
    furtherReadings: next,
    advice: measured ? adviceOf(measured, { directions, powders, changedSince }) : null,
    directions,
    additions,
    powders,
  };
}

/** What a reading of a bucket says of its dry powder. */
export function weighed(reading: BucketReading, { dryGravity }: BucketPowders): WeighedReading {
  const { specificGravity, litres } = reading;
  if (!specificGravity || !litres || !reading.stirred) return { ...reading, dry: null };
  const request = { specificGravity, litres, drySpecificGravity: dryGravity.value };
  const dry = faultsOfSlurry(request).length > 0 ? null : slurryOf(request);
  return { ...reading, dry };
}

type Known = { directions: BucketTarget | null; powders: BucketPowders; changedSince: boolean };

const nothing: BucketTarget = { gravity: null, flow: null, coat: null };

function adviceOf(
  { specificGravity, litres, ...reading }: BucketReading,
  { directions, powders, changedSince }: Known,
): BucketAdvice | null {
  if (!specificGravity || !litres) return null;
  return bucketAdvice({
    measured: { ...reading, specificGravity, litres },
    target: directions ?? nothing,
    dryGravity: powders.dryGravity.value,
    dissolves: powders.dissolves,
    changedSince,
  });
}
