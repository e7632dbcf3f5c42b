import { sql } from "drizzle-orm";
import { boolean, check, index, pgTable, text, uuid } from "drizzle-orm/pg-core";
import { decimal, id, lengthIs, moment, oneOf, sortedText } from "./columns.ts";
import { people } from "./people.ts";
import { revisions } from "./recipes.ts";

export const bucketStates = ["open", "hold", "empty"] as const;

/** A shared bucket of one revision. */
export const buckets = pgTable(
  "buckets",
  {
    id: id(),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    name: text().notNull(),
    nameKey: sortedText().notNull(),
    litres: decimal({ precision: 8, scale: 3 }).notNull(),
    /** Of a revision that nobody approved, for trying it out. */
    forTest: boolean().notNull().default(false),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (bucket) => [
    index("buckets_of_revision").on(bucket.revisionId),
    index("buckets_in_order").on(bucket.nameKey, bucket.id),
    check("buckets_name_length", lengthIs(bucket.name, 1, 80)),
    check("buckets_litres_possible", sql`${bucket.litres} > 0 and ${bucket.litres} <= 10000`),
  ],
);

/** In use, on hold or empty, from when and why. Append-only: the newest counts. */
export const bucketChanges = pgTable(
  "bucket_changes",
  {
    id: id(),
    bucketId: uuid()
      .notNull()
      .references(() => buckets.id),
    is: text({ enum: bucketStates }).notNull(),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (change) => [
    index("bucket_changes_of_bucket").on(change.bucketId, change.id),
    check("bucket_changes_is_known", oneOf(change.is, bucketStates)),
    check("bucket_changes_why_length", lengthIs(change.why, 1, 1000)),
  ],
);
