import { sql } from "drizzle-orm";
import { bigint, check, index, pgTable, text, uuid } from "drizzle-orm/pg-core";
import { isDigest, lengthIs, moment } from "./columns.ts";
import { people } from "./people.ts";

/** What happened, in order, each row chained to the one before by its hash. Append-only. */
export const events = pgTable(
  "events",
  {
    seq: bigint({ mode: "number" }).primaryKey(),
    id: uuid().notNull().unique("events_id_unique"),
    at: moment().notNull(),
    by: uuid().references(() => people.id),
    kind: text().notNull(),
    subject: text().notNull(),
    subjectId: uuid().notNull(),
    /** The canonical JSON (RFC 8785) that `hash` is the SHA-256 of. */
    text: text().notNull(),
    previous: text().notNull(),
    hash: text().notNull(),
  },
  (event) => [
    index("events_of_subject").on(event.subjectId, event.seq),
    check("events_seq_counts_from_one", sql`${event.seq} > 0`),
    check("events_kind_length", lengthIs(event.kind, 1, 60)),
    check("events_subject_length", lengthIs(event.subject, 1, 40)),
    check("events_text_length", lengthIs(event.text, 2, 20000)),
    check("events_hash_is_digest", isDigest(event.hash)),
    check("events_previous_is_digest", isDigest(event.previous)),
  ],
);
