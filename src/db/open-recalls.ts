import { and, asc, eq, inArray, isNotNull, isNull, notExists, type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import {
  bucketChanges,
  mixes,
  mixTicks,
  mixTickUndoings,
  people,
  recallClosings,
  recalls,
} from "./schema/index.ts";

/** A recall that nobody closed yet. */
export type OpenRecall = { id: string; of: "lot" | "bucket"; why: string; by: string; at: Date };

const columns = {
  id: recalls.id,
  lotId: recalls.lotId,
  why: recalls.why,
  by: people.name,
  at: recalls.at,
};

/**
 * The open recalls that some buckets are under, oldest first: their own, and those of lots that are in
 * them. A lot is in a bucket from when it was ticked into a mix, if that was not taken back, until the
 * bucket is emptied; giving a mix up takes nothing out again. A bucket under none has no entry.
 */
export async function openRecallsOfBuckets(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, OpenRecall[]>> {
  if (bucketIds.length === 0) return new Map();
  const ids = [...new Set(bucketIds)];
  const own = await db
    .select({ ...columns, under: sql<string>`${recalls.bucketId}` })
    .from(recalls)
    .innerJoin(people, eq(people.id, recalls.by))
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .where(and(isNull(recallClosings.recallId), inArray(recalls.bucketId, ids)));
  const ofLots = await db
    .selectDistinct({ ...columns, under: mixes.bucketId })
    .from(recalls)
    .innerJoin(people, eq(people.id, recalls.by))
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .innerJoin(mixTicks, eq(mixTicks.lotId, recalls.lotId))
    .innerJoin(mixes, eq(mixes.id, mixTicks.mixId))
    .where(
      and(
        isNull(recallClosings.recallId),
        isNotNull(recalls.lotId),
        inArray(mixes.bucketId, ids),
        notTakenBack(db),
        notEmptiedSince,
      ),
    );
  return grouped([...own, ...ofLots]);
}

/** The open recalls of some lots, oldest first; a lot under none has no entry. */
export async function openRecallsOfLots(
  db: Db,
  lotIds: readonly string[],
): Promise<Map<string, OpenRecall[]>> {
  if (lotIds.length === 0) return new Map();
  const rows = await db
    .select({ ...columns, under: sql<string>`${recalls.lotId}` })
    .from(recalls)
    .innerJoin(people, eq(people.id, recalls.by))
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .where(and(isNull(recallClosings.recallId), inArray(recalls.lotId, [...new Set(lotIds)])))
    .orderBy(asc(recalls.id));
  return grouped(rows);
}

/** That a tick still stands. */
export const notTakenBack = (db: Db): SQL =>
  notExists(
    db
      .select({ tickId: mixTickUndoings.tickId })
      .from(mixTickUndoings)
      .where(eq(mixTickUndoings.tickId, mixTicks.id)),
  );

/** That the bucket of a mix was not emptied since a tick. */
export const notEmptiedSince: SQL = sql`not exists (
  select 1 from ${bucketChanges} e
  where e.bucket_id = ${mixes.bucketId} and e."is" = 'empty' and e.id > ${mixTicks.id})`;

type Row = Omit<OpenRecall, "of"> & { lotId: string | null; under: string };

function grouped(rows: readonly Row[]): Map<string, OpenRecall[]> {
  const found = new Map<string, OpenRecall[]>();
  const oldestFirst = rows.toSorted((one, other) => (one.id < other.id ? -1 : 1));
  for (const { under, lotId, ...recall } of oldestFirst) {
    const of = lotId === null ? ("bucket" as const) : ("lot" as const);
    found.set(under, [...(found.get(under) ?? []), { ...recall, of }]);
  }
  return found;
}
