import { and, count, countDistinct, desc, eq, isNull, lt } from "drizzle-orm";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent, type Happening } from "./events.ts";
import { buckets, bucketUses, bucketUseUndoings, people } from "./schema/index.ts";

/** That somebody glazed with a bucket; what they glazed may be left unsaid. */
export type BucketUse = { id: string; what: string; by: { id: string; name: string }; at: Date };

/** Something that a person glazed, and the bucket. */
export type OwnUse = { id: string; what: string; at: Date; bucket: { id: string; name: string } };

const stands = isNull(bucketUseUndoings.useId);

/** Puts on record that somebody glazes with a bucket. @returns its id. */
export async function addBucketUse(
  db: Db,
  { bucketId, what, by, at }: Act & { by: string; bucketId: string; what: string },
): Promise<string> {
  const id = uuidv7();
  await db.transaction(async (tx) => {
    await tx.insert(bucketUses).values({ id, bucketId, what, by, at });
    await appendEvent(tx, { by, at }, happening("bucket used", { id, bucketId }));
  });
  return id;
}

/** Takes back a use that was ticked by mistake. */
export async function undoBucketUse(
  db: Db,
  { id, bucketId, by, at }: Act & { by: string; id: string; bucketId: string },
): Promise<"undone" | "undone-before"> {
  return db.transaction(async (tx) => {
    const kept = await tx
      .insert(bucketUseUndoings)
      .values({ useId: id, by, at })
      .onConflictDoNothing()
      .returning({ useId: bucketUseUndoings.useId });
    if (kept.length === 0) return "undone-before";
    await appendEvent(tx, { by, at }, happening("bucket use undone", { id, bucketId }));
    return "undone";
  });
}

const happening = (
  kind: string,
  { id, bucketId }: { id: string; bucketId: string },
): Happening => ({ kind, subject: "bucket", subjectId: bucketId, detail: { use: id } });

/** One use that was not taken back, with its bucket. */
export async function findBucketUse(
  db: Db,
  id: string,
): Promise<(BucketUse & { bucketId: string }) | undefined> {
  if (!isUuid(id)) return undefined;
  const [use] = await selectUses(db).where(and(eq(bucketUses.id, id), stands));
  return use;
}

/** Who used a bucket that was found through the reader's scope, newest first. */
export async function listBucketUses(
  db: Db,
  { bucketId, limit }: { bucketId: string; limit: number },
): Promise<BucketUse[]> {
  const rows = await selectUses(db)
    .where(and(eq(bucketUses.bucketId, bucketId), stands))
    .orderBy(desc(bucketUses.id))
    .limit(limit);
  return rows.map(({ bucketId: _, ...use }) => use);
}

/** The newest use of a bucket by one person. */
export async function findLastOwnUse(
  db: Db,
  { bucketId, by }: { bucketId: string; by: string },
): Promise<BucketUse | undefined> {
  const [use] = await selectUses(db)
    .where(and(eq(bucketUses.bucketId, bucketId), eq(bucketUses.by, by), stands))
    .orderBy(desc(bucketUses.id))
    .limit(1);
  return use;
}

const selectUses = (db: Db) =>
  db
    .select({
      id: bucketUses.id,
      bucketId: bucketUses.bucketId,
      what: bucketUses.what,
      by: { id: people.id, name: people.name },
      at: bucketUses.at,
    })
    .from(bucketUses)
    .innerJoin(people, eq(people.id, bucketUses.by))
    .leftJoin(bucketUseUndoings, eq(bucketUseUndoings.useId, bucketUses.id))
    .$dynamic();

/** How often a bucket was used, and by how many people. */
export async function countBucketUses(
  db: Db,
  bucketId: string,
): Promise<{ times: number; people: number }> {
  const [counted] = await db
    .select({ times: count(), people: countDistinct(bucketUses.by) })
    .from(bucketUses)
    .leftJoin(bucketUseUndoings, eq(bucketUseUndoings.useId, bucketUses.id))
    .where(and(eq(bucketUses.bucketId, bucketId), stands));
  return counted ?? { times: 0, people: 0 };
}

/** What a person used, newest first. */
export async function listOwnUses(
  db: Db,
  { by, after, limit }: { by: string; after?: string | undefined; limit: number },
): Promise<{ items: OwnUse[]; next: string | null }> {
  const { id } = bucketUses;
  const rows = await db
    .select({
      id,
      what: bucketUses.what,
      at: bucketUses.at,
      bucket: { id: buckets.id, name: buckets.name },
    })
    .from(bucketUses)
    .innerJoin(buckets, eq(buckets.id, bucketUses.bucketId))
    .leftJoin(bucketUseUndoings, eq(bucketUseUndoings.useId, id))
    .where(and(eq(bucketUses.by, by), stands, after ? lt(id, after) : undefined))
    .orderBy(desc(id))
    .limit(limit + 1);
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}
