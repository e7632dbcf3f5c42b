import { sql } from "drizzle-orm";
import {
  boolean,
  check,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  text,
  uuid,
} from "drizzle-orm/pg-core";
import { id, isDigest, lengthIs, moment, oneOf } from "./columns.ts";
import { notes } from "./notes.ts";
import { people } from "./people.ts";
import { recipes, revisions, uses } from "./recipes.ts";

export const verdicts = ["approve", "object", "remark"] as const;

/** Who wrote a revision beside its author. Append-only. */
export const revisionCoauthors = pgTable(
  "revision_coauthors",
  {
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    personId: uuid()
      .notNull()
      .references(() => people.id),
  },
  (coauthor) => [
    primaryKey({ columns: [coauthor.revisionId, coauthor.personId] }),
    index("revision_coauthors_of_person").on(coauthor.personId),
  ],
);

/** Somebody asks the reviewers to look at a revision. Append-only. */
export const reviewRequests = pgTable(
  "review_requests",
  {
    id: id(),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    for: text({ enum: uses }).notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (request) => [
    index("review_requests_of_revision").on(request.revisionId, request.id),
    check("review_requests_for_known", oneOf(request.for, uses)),
  ],
);

/** What a reviewer had before them when they judged. */
export type LookedAt = {
  engine: string;
  findings: { rule: string; level: string; says: string }[];
  tiles: string[];
  tests: string[];
};

/** A judgement of what a revision says, known by its digest. Append-only: each reviewer's newest counts. */
export const reviews = pgTable(
  "reviews",
  {
    id: id(),
    recipeId: uuid()
      .notNull()
      .references(() => recipes.id),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    digest: text().notNull(),
    verdict: text({ enum: verdicts }).notNull(),
    for: text({ enum: uses }).notNull(),
    reasons: text().notNull(),
    lookedAt: jsonb().$type<LookedAt>().notNull(),
    /** The objection that an objecting review puts on the recipe. */
    noteId: uuid().references(() => notes.id),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (review) => [
    index("reviews_of_digest").on(review.digest, review.id),
    index("reviews_of_recipe").on(review.recipeId, review.id),
    check("reviews_digest_is_digest", isDigest(review.digest)),
    check("reviews_verdict_known", oneOf(review.verdict, verdicts)),
    check("reviews_for_known", oneOf(review.for, uses)),
    check("reviews_reasons_length", lengthIs(review.reasons, 1, 4000)),
    check(
      "reviews_object_with_a_note",
      sql`(${review.verdict} = 'object') = (${review.noteId} is not null)`,
    ),
  ],
);

export const standings = [
  "draft",
  "in review",
  "approved",
  "needs another look",
  "withdrawn",
] as const;

/** What each revision counts as: derived, kept for lists, and settled anew when something may change it. */
export const revisionStandings = pgTable(
  "revision_standings",
  {
    revisionId: uuid()
      .primaryKey()
      .references(() => revisions.id),
    is: text({ enum: standings }).notNull(),
    for: text({ enum: uses }),
    because: text().array().notNull(),
    validUntil: moment(),
    /** The approving reviews that it rests on. */
    basis: uuid().array().notNull(),
    unsettled: boolean().notNull(),
    /** Counts every time it was marked, so that what was marked meanwhile is not settled by mistake. */
    marks: integer().notNull(),
  },
  (standing) => [
    index("revision_standings_unsettled").on(standing.revisionId).where(sql`${standing.unsettled}`),
    index("revision_standings_by_word").on(standing.is, standing.revisionId),
    check("revision_standings_is_known", oneOf(standing.is, standings)),
    check("revision_standings_for_known", oneOf(standing.for, uses)),
    check(
      "revision_standings_approved_for_something",
      sql`${standing.is} <> 'approved' or ${standing.for} is not null`,
    ),
  ],
);
