import { and, eq, isNull, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { reaches } from "./recall-reach.ts";
import {
  buckets,
  bucketUses,
  bucketUseUndoings,
  lots,
  materials,
  people,
  recallClosings,
  recalls,
} from "./schema/index.ts";
import { type Waiter, waitingColumns } from "./waiting-rows.ts";

/** Recalls that nobody closed, for managers. */
export const openRecalls = (db: Db, _: Waiter) =>
  db
    .select(
      waitingColumns({
        kind: "recall",
        slug: sql`''::text`,
        name: sql`coalesce('the bucket “' || ${buckets.name} || '”', 'a lot of ' || ${materials.name})`,
        ref: recalls.id,
        detail: recalls.why,
        at: recalls.at,
        by: people.name,
      }),
    )
    .from(recalls)
    .innerJoin(people, eq(people.id, recalls.by))
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .leftJoin(buckets, eq(buckets.id, recalls.bucketId))
    .leftJoin(lots, eq(lots.id, recalls.lotId))
    .leftJoin(materials, eq(materials.id, lots.materialId))
    .where(isNull(recallClosings.recallId));

/** Buckets that the person said they used, and that an open recall reaches: one line each. */
export const recalledUses = (db: Db, { reader }: Waiter) =>
  db
    .select(
      waitingColumns({
        kind: "recall-used",
        slug: sql`''::text`,
        name: buckets.name,
        ref: recalls.id,
        detail: recalls.why,
        at: sql`greatest(${recalls.at}, min(${bucketUses.at}))`,
        by: people.name,
      }),
    )
    .from(recalls)
    .innerJoin(people, eq(people.id, recalls.by))
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .innerJoin(bucketUses, eq(bucketUses.by, reader.id))
    .leftJoin(bucketUseUndoings, eq(bucketUseUndoings.useId, bucketUses.id))
    .innerJoin(buckets, eq(buckets.id, bucketUses.bucketId))
    .where(
      and(
        isNull(recallClosings.recallId),
        isNull(bucketUseUndoings.useId),
        reaches(sql`${bucketUses.bucketId}`, sql`${bucketUses.id}`),
      ),
    )
    .groupBy(recalls.id, buckets.id, people.id);
