import type { Decimal } from "decimal.js";
import { type FoundDirections, findDirections } from "./bucket-directions.ts";
import { type BucketReading, findLastReadings } from "./bucket-readings.ts";
import { type FoundBucket, listBuckets } from "./buckets.ts";
import type { Db } from "./client.ts";
import { findLastMixed } from "./last-mixed.ts";
import { findProofTiles, type ProofTile } from "./proof-tiles.ts";
import type { Reader } from "./recipes.ts";

/** One bucket on the way round the glaze room. */
export type RoundStop = {
  bucket: FoundBucket;
  /** As they were last told; before that, what it was put on record with. */
  litres: Decimal;
  /** By a reading or by a mix; null where nobody said. */
  lastStirred: Date | null;
  measured: BucketReading | null;
  directions: FoundDirections | null;
  /** When its last mix was finished, else when it was put on record. */
  filledAt: Date;
  proofs: ProofTile[];
  /** The last reading of the day. */
  tick: BucketReading | null;
};

/** As many buckets as a round takes in. */
const most = 500;

/**
 * The round of a day: every bucket that is not empty, in the order of names, with what was seen of it
 * since the day began. The reader may know of the recipes of all of them.
 */
export async function listRound(
  db: Db,
  { reader, now, since }: { reader: Reader; now: Date; since: Date },
): Promise<RoundStop[]> {
  const { items } = await listBuckets(db, { reader, now, limit: most, filled: true });
  const ids = items.map(({ id }) => id);
  const stirred = await findLastReadings.stirred(db, ids);
  const measured = await findLastReadings.measured(db, ids);
  const filled = await findLastReadings.filled(db, ids);
  const ticks = await findLastReadings.since(db, ids, since);
  const mixed = await findLastMixed(db, ids);
  const directions = await findDirections(db, ids);
  const proofs = await findProofTiles(db, { bucketIds: ids, reader });
  return items.map((bucket) => {
    const { id } = bucket;
    return {
      bucket,
      litres: filled.get(id)?.litres ?? bucket.litres,
      lastStirred: later(stirred.get(id)?.at, mixed.get(id)),
      measured: measured.get(id) ?? null,
      directions: directions.get(id) ?? null,
      filledAt: mixed.get(id) ?? bucket.addedAt,
      proofs: proofs.get(id) ?? [],
      tick: ticks.get(id) ?? null,
    };
  });
}

const later = (one: Date | undefined, other: Date | undefined): Date | null =>
  one && other ? (one > other ? one : other) : (one ?? other ?? null);
