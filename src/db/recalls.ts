import { and, desc, eq, isNotNull, isNull, or, type SQL } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { holdStill } from "./mixes.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  buckets,
  lots,
  materials,
  people,
  recallClosings,
  recalls,
  recipes,
  revisions,
  suppliers,
} from "./schema/index.ts";

/** A lot or a bucket that nobody may use, for safety, and how that ended. */
export type Recall = {
  id: string;
  of: RecalledLot | RecalledBucket;
  why: string;
  by: string;
  at: Date;
  /** What was done, which ended it; null while it is open. */
  closing: { done: string; by: string; at: Date } | null;
};

export type RecalledLot = {
  kind: "lot";
  id: string;
  material: { slug: string; name: string };
  supplier: string;
  mark: string;
  boughtAt: Date;
};

export type RecalledBucket = { kind: "bucket"; id: string; name: string };

/** The recalls that the reader may know of, the open ones first, then the newest first. */
export async function listRecalls(
  db: Db,
  { reader, limit }: { reader: Reader; limit: number },
): Promise<Recall[]> {
  const rows = await selectRecalls(db, knownTo(reader))
    .orderBy(desc(isNull(recallClosings.recallId)), desc(recalls.id))
    .limit(limit);
  return rows.map(asRecall);
}

/** One recall: of a lot for everybody in the studio, of a bucket where its recipe may be read. */
export async function findRecall(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<Recall | undefined> {
  if (!isUuid(id)) return undefined;
  const [row] = await selectRecalls(db, and(eq(recalls.id, id), knownTo(reader)));
  return row && asRecall(row);
}

const knownTo = (reader: Reader) =>
  or(isNotNull(recalls.lotId), readableBy(reader) ?? isNotNull(recalls.bucketId));

const closers = alias(people, "closers");

const selectRecalls = (db: Db, which: SQL | undefined) =>
  db
    .select({
      id: recalls.id,
      lotId: recalls.lotId,
      bucketId: recalls.bucketId,
      material: { slug: materials.slug, name: materials.name },
      supplier: suppliers.name,
      mark: lots.mark,
      boughtAt: lots.at,
      bucket: buckets.name,
      why: recalls.why,
      by: people.name,
      at: recalls.at,
      done: recallClosings.done,
      closedBy: closers.name,
      closedAt: recallClosings.at,
    })
    .from(recalls)
    .innerJoin(people, eq(people.id, recalls.by))
    .leftJoin(lots, eq(lots.id, recalls.lotId))
    .leftJoin(materials, eq(materials.id, lots.materialId))
    .leftJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .leftJoin(buckets, eq(buckets.id, recalls.bucketId))
    .leftJoin(revisions, eq(revisions.id, buckets.revisionId))
    .leftJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .leftJoin(closers, eq(closers.id, recallClosings.by))
    .where(which)
    .$dynamic();

type Row = Awaited<ReturnType<typeof selectRecalls>>[number];

const asRecall = ({ done, closedBy, closedAt, ...row }: Row): Recall => ({
  id: row.id,
  of: whatOf(row),
  why: row.why,
  by: row.by,
  at: row.at,
  closing:
    done === null || closedBy === null || closedAt === null
      ? null
      : { done, by: closedBy, at: closedAt },
});

type Thing = Pick<
  Row,
  "lotId" | "bucketId" | "material" | "supplier" | "mark" | "boughtAt" | "bucket"
>;

function whatOf({ lotId, bucketId, bucket, ...lot }: Thing): Recall["of"] {
  const { material, supplier, mark, boughtAt } = lot;
  if (lotId !== null && material && supplier !== null && mark !== null && boughtAt)
    return { kind: "lot", id: lotId, material, supplier, mark, boughtAt };
  if (bucketId !== null && bucket !== null) return { kind: "bucket", id: bucketId, name: bucket };
  throw new Error("a recall is of a lot or of a bucket");
}

/**
 * Recalls a lot or a bucket that was found through the reader's scope. It is held still meanwhile, so
 * that nobody takes powder out of a lot after it was recalled.
 */
export async function raiseRecall(
  db: Db,
  given: Act & { by: string; of: { lotId: string } | { bucketId: string }; why: string },
): Promise<string> {
  const { of, why, by, at } = given;
  const id = uuidv7();
  const [kind, thing] = "lotId" in of ? ["lot", of.lotId] : ["bucket", of.bucketId];
  await db.transaction(async (tx) => {
    await holdStill(tx, thing);
    await tx.insert(recalls).values({ id, ...of, why, by, at });
    const detail = { of: kind, [kind]: thing };
    await appendEvent(
      tx,
      { by, at },
      { kind: "recall raised", subject: "recall", subjectId: id, detail },
    );
  });
  return id;
}

/** Says what was done about a recall, which ends it for good. */
export async function closeRecall(
  db: Db,
  { recallId, done, by, at }: Act & { by: string; recallId: string; done: string },
): Promise<"closed" | "closed-before"> {
  return db.transaction(async (tx) => {
    const kept = await tx
      .insert(recallClosings)
      .values({ recallId, done, by, at })
      .onConflictDoNothing()
      .returning({ recallId: recallClosings.recallId });
    if (kept.length === 0) return "closed-before";
    await appendEvent(
      tx,
      { by, at },
      { kind: "recall closed", subject: "recall", subjectId: recallId },
    );
    return "closed";
  });
}
