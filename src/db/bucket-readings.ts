import type { Decimal } from "decimal.js";
import { and, desc, eq, gte, inArray, isNotNull, lt, type SQL } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { bucketReadings, people } from "./schema/index.ts";

/** What somebody measured of a bucket; what they did not measure is null. */
export type GivenReading = {
  specificGravity: Decimal | null;
  litres: Decimal | null;
  celsius: Decimal | null;
  flowSeconds: Decimal | null;
  coatMm: Decimal | null;
  stirred: boolean;
  note: string;
};

export type BucketReading = GivenReading & { id: string; by: string; at: Date };

/** The readings of a bucket that was found through the reader's scope, newest first. */
export async function listReadings(
  db: Db,
  { bucketId, after, limit }: { bucketId: string; after?: string | undefined; limit: number },
): Promise<{ items: BucketReading[]; next: string | null }> {
  const { id } = bucketReadings;
  const rows = await selectReadings(db)
    .where(and(eq(bucketReadings.bucketId, bucketId), after ? lt(id, after) : undefined))
    .orderBy(desc(id))
    .limit(limit + 1);
  const items = rows.slice(0, limit).map(({ bucketId: _, ...reading }) => reading);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}

/** The newest reading of each bucket that tells its gravity, its litres, or that it was stirred. */
export const findLastReadings = {
  measured: (db: Db, bucketIds: readonly string[]) =>
    findLast(db, bucketIds, isNotNull(bucketReadings.specificGravity)),
  filled: (db: Db, bucketIds: readonly string[]) =>
    findLast(db, bucketIds, isNotNull(bucketReadings.litres)),
  stirred: (db: Db, bucketIds: readonly string[]) =>
    findLast(db, bucketIds, eq(bucketReadings.stirred, true)),
  since: (db: Db, bucketIds: readonly string[], from: Date) =>
    findLast(db, bucketIds, gte(bucketReadings.at, from)),
};

async function findLast(
  db: Db,
  bucketIds: readonly string[],
  which: SQL,
): Promise<Map<string, BucketReading>> {
  if (bucketIds.length === 0) return new Map();
  const { bucketId, id } = bucketReadings;
  const rows = await db
    .selectDistinctOn([bucketId], columns)
    .from(bucketReadings)
    .innerJoin(people, eq(people.id, bucketReadings.by))
    .where(and(inArray(bucketId, [...bucketIds]), which))
    .orderBy(bucketId, desc(id));
  return new Map(rows.map(({ bucketId, ...reading }) => [bucketId, reading]));
}

const columns = {
  bucketId: bucketReadings.bucketId,
  id: bucketReadings.id,
  specificGravity: bucketReadings.specificGravity,
  litres: bucketReadings.litres,
  celsius: bucketReadings.celsius,
  flowSeconds: bucketReadings.flowSeconds,
  coatMm: bucketReadings.coatMm,
  stirred: bucketReadings.stirred,
  note: bucketReadings.note,
  by: people.name,
  at: bucketReadings.at,
};

const selectReadings = (db: Db) =>
  db.select(columns).from(bucketReadings).innerJoin(people, eq(people.id, bucketReadings.by));

/** Puts on record what was measured of a bucket, or that it was stirred. @returns its id. */
export async function addReading(
  db: Db,
  given: Act & GivenReading & { by: string; bucketId: string },
): Promise<string> {
  const { bucketId, by, at, specificGravity, stirred } = given;
  const id = uuidv7();
  await db.transaction(async (tx) => {
    await tx.insert(bucketReadings).values({ ...given, id });
    const detail = { reading: id, gravity: specificGravity?.toFixed() ?? null, stirred };
    await appendEvent(
      tx,
      { by, at },
      { kind: "bucket read", subject: "bucket", subjectId: bucketId, detail },
    );
  });
  return id;
}
