import type { Decimal } from "decimal.js";
import { and, asc, desc, eq, gt, inArray, or, type SQL, sql } from "drizzle-orm";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Use } from "../chem/chemistry.ts";
import { type BucketReport, listOpenReports } from "./bucket-reports.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { foldName } from "./names.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  bucketChanges,
  bucketStates,
  buckets,
  people,
  recipes,
  revisions,
} from "./schema/index.ts";
import type { Standing } from "./standing.ts";
import { findStandings } from "./standings.ts";

export { bucketStates };

export type BucketIs = (typeof bucketStates)[number];

/** Open, on hold or empty, since when, by whose word and why. */
export type BucketChange = { is: BucketIs; why: string; by: string; at: Date };

export type FoundBucket = {
  id: string;
  name: string;
  litres: Decimal;
  recipe: { slug: string; name: string };
  /** The revision that it follows, whatever the recipe's head is. */
  number: number;
  head: number;
  use: Use;
  standing: Standing;
  addedBy: string;
  addedAt: Date;
  /** Newest first; a bucket that nobody said anything of is open. */
  changes: BucketChange[];
  /** What somebody noticed and nobody has answered, oldest first. */
  reports: BucketReport[];
};

export type BucketPlace = { nameKey: string; id: string };

/** Buckets in the order of their names, as far as the reader may know of their recipes. */
export async function listBuckets(
  db: Db,
  params: {
    reader: Reader;
    now: Date;
    after?: BucketPlace | undefined;
    limit: number;
    /** Leaves out those that are empty. */
    filled?: boolean | undefined;
  },
): Promise<{ items: FoundBucket[]; next: BucketPlace | null }> {
  const { reader, now, after, limit, filled } = params;
  const further =
    after &&
    or(
      gt(buckets.nameKey, after.nameKey),
      and(eq(buckets.nameKey, after.nameKey), gt(buckets.id, after.id)),
    );
  const which = and(readableBy(reader), further, filled ? notEmpty : undefined);
  const rows = await selectBuckets(db, which).limit(limit + 1);
  const page = rows.slice(0, limit);
  const last = page.at(-1);
  return {
    items: await withStandings(db, page, now),
    next: rows.length > limit && last ? { nameKey: last.nameKey, id: last.id } : null,
  };
}

/** One bucket, where the reader may know of its recipe. */
export async function findBucket(
  db: Db,
  { id, reader, now }: { id: string; reader: Reader; now: Date },
): Promise<FoundBucket | undefined> {
  if (!isUuid(id)) return undefined;
  const rows = await selectBuckets(db, and(eq(buckets.id, id), readableBy(reader)));
  return (await withStandings(db, rows, now))[0];
}

/** That the last word on a bucket is not that it is empty. */
export const notEmpty: SQL = sql`(select c."is" from ${bucketChanges} c where c.bucket_id = ${buckets.id} order by c.id desc limit 1) is distinct from 'empty'`;

const selectBuckets = (db: Db, which: SQL | undefined) =>
  db
    .select({
      id: buckets.id,
      name: buckets.name,
      nameKey: buckets.nameKey,
      litres: buckets.litres,
      recipe: { slug: recipes.slug, name: recipes.name },
      revisionId: revisions.id,
      number: revisions.number,
      head: recipes.head,
      use: revisions.use,
      addedBy: people.name,
      addedAt: buckets.addedAt,
    })
    .from(buckets)
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, buckets.addedBy))
    .where(which)
    .orderBy(asc(buckets.nameKey), asc(buckets.id));

async function withStandings(
  db: Db,
  rows: Awaited<ReturnType<typeof selectBuckets>>,
  now: Date,
): Promise<FoundBucket[]> {
  const revisionIds = [...new Set(rows.map(({ revisionId }) => revisionId))];
  const standings = await findStandings(db, { revisionIds, now });
  const ids = rows.map(({ id }) => id);
  const changes = await listChanges(db, ids);
  const reports = await listOpenReports(db, ids);
  return rows.map(({ revisionId, nameKey: _, ...row }) => {
    const standing = standings.get(revisionId);
    if (!standing) throw new Error("every revision has a standing");
    const said = { changes: changes.get(row.id) ?? [], reports: reports.get(row.id) ?? [] };
    return { ...row, standing, ...said };
  });
}

async function listChanges(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, BucketChange[]>> {
  const changes = new Map<string, BucketChange[]>();
  if (bucketIds.length === 0) return changes;
  const rows = await db
    .select({
      bucketId: bucketChanges.bucketId,
      is: bucketChanges.is,
      why: bucketChanges.why,
      by: people.name,
      at: bucketChanges.at,
    })
    .from(bucketChanges)
    .innerJoin(people, eq(people.id, bucketChanges.by))
    .where(inArray(bucketChanges.bucketId, [...bucketIds]))
    .orderBy(desc(bucketChanges.id));
  for (const { bucketId, ...change } of rows)
    changes.set(bucketId, [...(changes.get(bucketId) ?? []), change]);
  return changes;
}

export type NewBucket = { kind: "added"; id: string } | { kind: "no-such-revision" };

type Filled = { recipeId: string; number: number; name: string; litres: Decimal };

/** Puts a bucket on record, of one revision of a recipe that was found through the reader's scope. */
export async function addBucket(
  db: Db,
  { recipeId, number, name, litres, by, at }: Act & Filled & { by: string },
): Promise<NewBucket> {
  return db.transaction(async (tx) => {
    const [revision] = await tx
      .select({ id: revisions.id, digest: revisions.digest })
      .from(revisions)
      .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)));
    if (!revision) return { kind: "no-such-revision" };
    const id = uuidv7();
    const filled = { name, nameKey: foldName(name), litres };
    await tx
      .insert(buckets)
      .values({ id, revisionId: revision.id, ...filled, addedBy: by, addedAt: at });
    const detail = { revision: revision.id, digest: revision.digest, litres: litres.toFixed() };
    const happening = { kind: "bucket added", subject: "bucket", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

/** Says of a bucket that it is open, on hold or empty from now on, and why. */
export async function changeBucket(
  db: Db,
  { bucketId, is, why, by, at }: Act & { by: string; bucketId: string; is: BucketIs; why: string },
): Promise<void> {
  await db.transaction(async (tx) => {
    await tx.insert(bucketChanges).values({ id: uuidv7(), bucketId, is, why, by, at });
    const detail = { is };
    await appendEvent(
      tx,
      { by, at },
      { kind: "bucket changed", subject: "bucket", subjectId: bucketId, detail },
    );
  });
}
