import { sql } from "drizzle-orm";
import { check, index, jsonb, pgTable, text, unique, uuid } from "drizzle-orm/pg-core";
import { id, lengthIs, moment, oneOf } from "./columns.ts";
import { people } from "./people.ts";
import { revisions, uses } from "./recipes.ts";
import { type LookedAt, verdicts } from "./reviews.ts";

/** One glaze laid over another: a record of its own, since neither alone says how they behave together. */
export const pairs = pgTable(
  "pairs",
  {
    id: id(),
    overId: uuid()
      .notNull()
      .references(() => revisions.id),
    underId: uuid()
      .notNull()
      .references(() => revisions.id),
    about: text().notNull(),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (pair) => [
    unique("pairs_once").on(pair.overId, pair.underId),
    index("pairs_under").on(pair.underId),
    check("pairs_of_two", sql`${pair.overId} <> ${pair.underId}`),
    check("pairs_about_length", lengthIs(pair.about, 0, 2000)),
  ],
);

/** A judgement of a pair. Append-only: each reviewer's newest counts. */
export const pairReviews = pgTable(
  "pair_reviews",
  {
    id: id(),
    pairId: uuid()
      .notNull()
      .references(() => pairs.id),
    verdict: text({ enum: verdicts }).notNull(),
    for: text({ enum: uses }).notNull(),
    reasons: text().notNull(),
    lookedAt: jsonb().$type<LookedAt>().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (review) => [
    index("pair_reviews_of_pair").on(review.pairId, review.id),
    check("pair_reviews_verdict_known", oneOf(review.verdict, verdicts)),
    check("pair_reviews_for_known", oneOf(review.for, uses)),
    check("pair_reviews_reasons_length", lengthIs(review.reasons, 1, 4000)),
  ],
);
