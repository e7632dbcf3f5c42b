import { Decimal } from "decimal.js";
import { and, desc, eq, inArray, isNotNull, isNull, sql } from "drizzle-orm";
import { type Contents, contentsOf, type Happening } from "../chem/bucket-contents.ts";
import { faultsOfSlurry, slurryOf } from "../chem/slurry.ts";
import { findBucketPowders } from "./bucket-powders.ts";
import {
  type BucketTick,
  findStillToCome,
  listBucketTicks,
  type PowderIn,
} from "./bucket-ticks.ts";
import type { Db } from "./client.ts";
import {
  bucketChanges,
  bucketReadings,
  mixEnds,
  mixes,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";
import type { Defect } from "./tiles.ts";

/** What is in a bucket since it was last emptied, and whether it was proved. */
export type Filling = {
  contents: Contents<PowderIn>;
  /** Lines of an open mix that nobody has put in, as planned. */
  toCome: PowderIn[];
  /** That a mix was finished. */
  mixed: boolean;
  /** That something is in of a mix that is open. */
  mixing: boolean;
  /** When powder last went in of a mix that nobody finished. */
  unfinishedAt: Date | null;
  /** The newest proof tile that was put on record since powder last went in. */
  proof: { id: string; defects: Defect[] } | null;
};

/** The fillings of some buckets; one that nothing is in has one too. */
export async function findFillings(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, Filling>> {
  const ticks = await listBucketTicks(db, bucketIds);
  const filled = [...new Set(ticks.map(({ bucketId }) => bucketId))];
  const toCome = await findStillToCome(db, filled);
  const readings = await findDryReadings(db, filled);
  const proofs = await findNewestProofs(db, filled);
  return new Map(
    bucketIds.map((id) => {
      const own = ticks.filter(({ bucketId }) => bucketId === id);
      const unfinished = own.filter(({ end }) => end?.is !== "finished");
      const lastIn = newest(own.map(wentInAt));
      const proof = proofs.get(id);
      return [
        id,
        {
          contents: contentsOf(inOrder(own, readings.get(id) ?? [])),
          toCome: toCome.get(id) ?? [],
          mixed: own.length > unfinished.length,
          mixing: own.some(({ end }) => end === null),
          unfinishedAt: newest(unfinished.map(({ at }) => at)),
          proof: proof && lastIn && proof.at >= lastIn ? proof : null,
        },
      ];
    }),
  );
}

/** A batch goes in when its mix is finished; of one that nobody finished, each powder by itself. */
const wentInAt = ({ end, at }: BucketTick): Date => (end?.is === "finished" ? end.at : at);

const newest = (moments: readonly Date[]): Date | null =>
  moments.reduce<Date | null>((last, at) => (last && last > at ? last : at), null);

type DryReading = { at: Date; dryGrams: Decimal };

/** Mixes at their ends, since a reading before that is of what was there before, and readings. */
function inOrder(
  ticks: readonly BucketTick[],
  readings: readonly DryReading[],
): Happening<PowderIn>[] {
  const mixIds = [...new Set(ticks.map(({ mixId }) => mixId))];
  const putIn = mixIds.map((mixId) => {
    const powders = ticks.filter((tick) => tick.mixId === mixId);
    const happening = { kind: "put in" as const, powders };
    return { at: powders[0]?.end?.at.getTime() ?? Number.POSITIVE_INFINITY, happening };
  });
  const measured = readings.map(({ at, dryGrams }) => ({
    at: at.getTime(),
    happening: { kind: "measured" as const, dryGrams },
  }));
  return [...putIn, ...measured]
    .sort((one, other) => (one.at < other.at ? -1 : one.at > other.at ? 1 : 0))
    .map(({ happening }) => happening);
}

/** What the newest reading of each stretch between two mixes tells of the dry powder, since the bucket was emptied. */
async function findDryReadings(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, DryReading[]>> {
  const told = new Map<string, DryReading[]>();
  if (bucketIds.length === 0) return told;
  const { bucketId, at, id, specificGravity, litres, stirred } = bucketReadings;
  const mixesBefore = sql`(select count(*) from ${mixEnds} e join ${mixes} m on m.id = e.mix_id where m.bucket_id = ${bucketId} and e.at <= ${at})`;
  const rows = await db
    .selectDistinctOn([bucketId, mixesBefore], { bucketId, at, specificGravity, litres })
    .from(bucketReadings)
    .where(
      and(
        inArray(bucketId, [...bucketIds]),
        isNotNull(specificGravity),
        isNotNull(litres),
        eq(stirred, true),
        sql`not exists (select 1 from ${bucketChanges} e where e.bucket_id = ${bucketId} and e."is" = 'empty' and e.id > ${id})`,
      ),
    )
    .orderBy(bucketId, mixesBefore, desc(id));
  const powders = await findBucketPowders(
    db,
    rows.map((row) => row.bucketId),
  );
  for (const { bucketId: bucket, at: read, specificGravity: gravity, litres: measured } of rows) {
    const dry = powders.get(bucket)?.dryGravity.value;
    if (!gravity || !measured || !dry) continue;
    const request = { specificGravity: gravity, litres: measured, drySpecificGravity: dry };
    if (faultsOfSlurry(request).length > 0) continue;
    const reading = { at: read, dryGrams: new Decimal(slurryOf(request).dryGrams) };
    told.set(bucket, [...(told.get(bucket) ?? []), reading]);
  }
  return told;
}

/** The newest proof tile of each bucket that nobody withdrew. */
async function findNewestProofs(db: Db, bucketIds: readonly string[]) {
  const proofs = new Map<string, { id: string; at: Date; defects: Defect[] }>();
  if (bucketIds.length === 0) return proofs;
  const rows = await db
    .selectDistinctOn([tiles.bucketId], {
      bucketId: tiles.bucketId,
      id: tiles.id,
      at: tiles.at,
      defects: tiles.defects,
    })
    .from(tiles)
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(and(inArray(tiles.bucketId, [...bucketIds]), isNull(tileWithdrawals.tileId)))
    .orderBy(tiles.bucketId, desc(tiles.id));
  for (const { bucketId, ...proof } of rows) if (bucketId) proofs.set(bucketId, proof);
  return proofs;
}
