import { and, asc, eq, inArray, isNull, lte, or, type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { notEmptiedSince, notTakenBack } from "./open-recalls.ts";
import {
  bucketChanges,
  buckets,
  bucketUses,
  bucketUseUndoings,
  mixes,
  mixTicks,
  mixTickUndoings,
  people,
  recallClosings,
  recalls,
  recipes,
  revisions,
  tiles,
} from "./schema/index.ts";

/** A mix that what is recalled is in. */
export type AffectedMix = {
  id: string;
  bucketId: string;
  /** When some of it first went in. */
  at: Date;
  /** Whoever opened the mix or weighed a line of it. */
  people: { id: string; name: string }[];
  /** Whether the bucket was not emptied since. */
  stillIn: boolean;
};

/** Something that somebody made or did with an affected bucket. */
export type AffectedUse = {
  id: string;
  bucketId: string;
  what: string;
  by: { id: string; name: string };
  at: Date;
};

export type AffectedTile = Omit<AffectedUse, "what"> & { recipe: string; cone: string };

export type Affected = {
  mixes: AffectedMix[];
  uses: AffectedUse[];
  tiles: AffectedTile[];
};

/**
 * That two things happened on one filling of a bucket: between them it was not emptied and mixed into
 * again. What is put on record of a bucket after it was emptied and before it is filled again is of
 * what was in it before. Rows are told apart in time by their ids.
 */
const onOneFilling = (bucketId: SQL, earlier: SQL, later: SQL): SQL => sql`not exists (
  select 1 from ${bucketChanges} e join ${mixes} refill on refill.bucket_id = e.bucket_id and refill.id > e.id
  where e.bucket_id = ${bucketId} and e."is" = 'empty'
    and e.id > least(${earlier}, ${later}) and refill.id <= greatest(${earlier}, ${later}))`;

/** That the recall of this question reaches what happened to a bucket with the row of this id. */
export const reaches = (bucketId: SQL, id: SQL): SQL => sql`(case
  when ${recalls.bucketId} is not null
  then ${recalls.bucketId} = ${bucketId} and ${onOneFilling(bucketId, sql`${recalls.id}`, id)}
  else exists (
    select 1 from ${mixTicks} t join ${mixes} x on x.id = t.mix_id
    where t.lot_id = ${recalls.lotId} and x.bucket_id = ${bucketId} and t.id < ${id}
      and not exists (select 1 from ${mixTickUndoings} u where u.tick_id = t.id)
      and ${onOneFilling(bucketId, sql`t.id`, id)}) end)`;

/** That something was put on record before the recall was closed. */
const whileOpen = (at: typeof tiles.at | typeof bucketUses.at | typeof mixTicks.at) =>
  or(isNull(recallClosings.recallId), lte(at, recallClosings.at));

/** What a recall reaches: the mixes, and what was glazed with their buckets while it was in them. */
export async function findAffected(db: Db, recallId: string): Promise<Affected> {
  return {
    mixes: await affectedMixes(db, recallId),
    uses: await affectedUses(db, recallId),
    tiles: await affectedTiles(db, recallId),
  };
}

async function affectedMixes(db: Db, recallId: string): Promise<AffectedMix[]> {
  const rows = await db
    .select({
      id: mixes.id,
      bucketId: mixes.bucketId,
      openedBy: mixes.by,
      at: sql`min(${mixTicks.at})`.mapWith(mixTicks.at),
      stillIn: sql<boolean>`bool_or(${notEmptiedSince})`,
    })
    .from(recalls)
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .innerJoin(
      mixes,
      sql`(${recalls.lotId} is not null or ${mixes.bucketId} = ${recalls.bucketId})`,
    )
    .innerJoin(mixTicks, eq(mixTicks.mixId, mixes.id))
    .where(
      and(
        eq(recalls.id, recallId),
        or(
          eq(mixTicks.lotId, recalls.lotId),
          and(
            eq(mixes.bucketId, recalls.bucketId),
            onOneFilling(sql`${mixes.bucketId}`, sql`${recalls.id}`, sql`${mixTicks.id}`),
          ),
        ),
        notTakenBack(db),
        whileOpen(mixTicks.at),
      ),
    )
    .groupBy(mixes.id)
    .orderBy(asc(mixes.id));
  const took = await takers(
    db,
    rows.map(({ id }) => id),
  );
  return rows.map(({ openedBy: _, ...row }) => ({ ...row, people: took.get(row.id) ?? [] }));
}

/** Whoever opened some mixes or weighed a line of them, taken back or not: the dust was there. */
async function takers(db: Db, ids: string[]): Promise<Map<string, { id: string; name: string }[]>> {
  const took = new Map<string, { id: string; name: string }[]>();
  if (ids.length === 0) return took;
  const rows = await db
    .selectDistinct({ mixId: mixes.id, id: people.id, name: people.name })
    .from(mixes)
    .leftJoin(mixTicks, eq(mixTicks.mixId, mixes.id))
    .innerJoin(people, or(eq(people.id, mixes.by), eq(people.id, mixTicks.by)))
    .where(inArray(mixes.id, ids))
    .orderBy(asc(people.name));
  for (const { mixId, ...person } of rows) took.set(mixId, [...(took.get(mixId) ?? []), person]);
  return took;
}

const affectedUses = (db: Db, recallId: string): Promise<AffectedUse[]> =>
  db
    .select({
      id: bucketUses.id,
      bucketId: bucketUses.bucketId,
      what: bucketUses.what,
      by: { id: people.id, name: people.name },
      at: bucketUses.at,
    })
    .from(recalls)
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .innerJoin(bucketUses, reaches(sql`${bucketUses.bucketId}`, sql`${bucketUses.id}`))
    .innerJoin(people, eq(people.id, bucketUses.by))
    .leftJoin(bucketUseUndoings, eq(bucketUseUndoings.useId, bucketUses.id))
    .where(and(eq(recalls.id, recallId), isNull(bucketUseUndoings.useId), whileOpen(bucketUses.at)))
    .orderBy(asc(bucketUses.id));

async function affectedTiles(db: Db, recallId: string): Promise<AffectedTile[]> {
  const rows = await db
    .select({
      id: tiles.id,
      bucketId: buckets.id,
      recipe: recipes.name,
      cone: tiles.cone,
      by: { id: people.id, name: people.name },
      at: tiles.at,
    })
    .from(recalls)
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .innerJoin(tiles, reaches(sql`${tiles.bucketId}`, sql`${tiles.id}`))
    .innerJoin(buckets, eq(buckets.id, tiles.bucketId))
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, tiles.by))
    .where(and(eq(recalls.id, recallId), whileOpen(tiles.at)))
    .orderBy(asc(tiles.id));
  return rows;
}
