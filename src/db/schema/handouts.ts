import { sql } from "drizzle-orm";
import { check, index, pgTable, primaryKey, smallint, text, uuid } from "drizzle-orm/pg-core";
import { id, isDigest, lengthIs, moment } from "./columns.ts";
import { families } from "./families.ts";
import { people } from "./people.ts";
import { revisions } from "./recipes.ts";

/**
 * Revisions written up for readers elsewhere, who hold a link, until it is revoked. Of a family or of
 * one recipe; what a family gets later is not in it. Only its token's hash is kept.
 */
export const handouts = pgTable(
  "handouts",
  {
    id: id(),
    /** Null where one recipe is handed out by itself. */
    familyId: uuid().references(() => families.id),
    /** Whose names the link opens with; a reader may choose others. */
    region: text().notNull(),
    tokenHash: text().notNull().unique("handouts_token_unique"),
    madeBy: uuid()
      .notNull()
      .references(() => people.id),
    madeAt: moment().notNull(),
    revokedAt: moment(),
    revokedBy: uuid().references(() => people.id),
  },
  (handout) => [
    index("handouts_of_family").on(handout.familyId),
    check("handouts_region_length", lengthIs(handout.region, 0, 60)),
    check("handouts_token_hashed", isDigest(handout.tokenHash)),
    check(
      "handouts_revoked_by_somebody",
      sql`(${handout.revokedAt} is null) = (${handout.revokedBy} is null)`,
    ),
  ],
);

/** A revision's place in a handout. Append-only. */
export const handoutRevisions = pgTable(
  "handout_revisions",
  {
    handoutId: uuid()
      .notNull()
      .references(() => handouts.id),
    position: smallint().notNull(),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
  },
  (place) => [
    primaryKey({ columns: [place.handoutId, place.position] }),
    index("handout_revisions_of_revision").on(place.revisionId),
    check("handout_revisions_position_counts", sql`${place.position} between 0 and 199`),
  ],
);
