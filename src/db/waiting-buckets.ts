import { and, eq, isNull, not, sql } from "drizzle-orm";
import { notEmpty } from "./buckets.ts";
import type { Db } from "./client.ts";
import { readableBy } from "./recipes.ts";
import {
  bucketChanges,
  bucketReportAnswers,
  bucketReports,
  buckets,
  people,
  recipes,
  revisionStandings,
  revisions,
} from "./schema/index.ts";
import { isApprovedAt } from "./standings.ts";
import { standingChangedAt, type Waiter, waitingColumns } from "./waiting-rows.ts";

/** Buckets that somebody put on hold, and that a manager has to look at. */
export const heldBuckets = (db: Db, { reader }: Waiter) =>
  db
    .select(
      waitingColumns({
        kind: "bucket-on-hold",
        number: revisions.number,
        ref: buckets.id,
        detail: buckets.name,
        at: bucketChanges.at,
        by: people.name,
      }),
    )
    .from(bucketChanges)
    .innerJoin(buckets, eq(buckets.id, bucketChanges.bucketId))
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, bucketChanges.by))
    .where(
      and(
        eq(bucketChanges.is, "hold"),
        readableBy(reader),
        sql`not exists (select 1 from ${bucketChanges} later where later.bucket_id = ${buckets.id} and later.id > ${bucketChanges.id})`,
      ),
    );

/** Reports of buckets that a manager has to look at. */
export const reportedBuckets = (db: Db, { reader }: Waiter) =>
  db
    .select(
      waitingColumns({
        kind: "bucket-report",
        name: buckets.name,
        number: revisions.number,
        ref: bucketReports.id,
        detail: bucketReports.trouble,
        at: bucketReports.at,
        by: people.name,
      }),
    )
    .from(bucketReports)
    .innerJoin(buckets, eq(buckets.id, bucketReports.bucketId))
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, bucketReports.by))
    .leftJoin(bucketReportAnswers, eq(bucketReportAnswers.reportId, bucketReports.id))
    .where(and(isNull(bucketReportAnswers.reportId), readableBy(reader)));

/**
 * Buckets that are not empty and whose revision is not approved, but for test buckets: for managers,
 * and who added them.
 */
export const doubtfulBuckets = (db: Db, { reader, now }: Waiter) =>
  db
    .select(
      waitingColumns({
        kind: "bucket",
        number: revisions.number,
        ref: buckets.id,
        detail: buckets.name,
        at: sql`greatest(${buckets.addedAt}, ${standingChangedAt})`,
      }),
    )
    .from(buckets)
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(revisionStandings, eq(revisionStandings.revisionId, revisions.id))
    .where(
      and(
        reader.role === "manager" ? undefined : eq(buckets.addedBy, reader.id),
        readableBy(reader),
        not(isApprovedAt(now)),
        eq(buckets.forTest, false),
        notEmpty,
      ),
    );
