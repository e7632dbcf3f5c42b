import { sql } from "drizzle-orm";
import { boolean, check, index, pgTable, text, uuid } from "drizzle-orm/pg-core";
import { id, lengthIs, moment } from "./columns.ts";
import { people } from "./people.ts";
import { recipes, revisions } from "./recipes.ts";

/** A fork's revision offered back to the recipe that it came from. Append-only. */
export const offers = pgTable(
  "offers",
  {
    id: id(),
    recipeId: uuid()
      .notNull()
      .references(() => recipes.id),
    /** The revision that is offered, of another recipe. */
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    /** The revision of this recipe that both sides came from. */
    baseId: uuid()
      .notNull()
      .references(() => revisions.id),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (offer) => [
    index("offers_of_recipe").on(offer.recipeId, offer.id),
    check("offers_why_length", lengthIs(offer.why, 1, 2000)),
  ],
);

/** Taken, with the revision that it became, or turned down. Append-only. */
export const offerAnswers = pgTable(
  "offer_answers",
  {
    offerId: uuid()
      .primaryKey()
      .references(() => offers.id),
    accepted: boolean().notNull(),
    why: text().notNull(),
    revisionId: uuid().references(() => revisions.id),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (answer) => [
    check("offer_answers_why_length", lengthIs(answer.why, 0, 2000)),
    check(
      "offer_answers_accepted_became_a_revision",
      sql`${answer.accepted} = (${answer.revisionId} is not null)`,
    ),
    check("offer_answers_declined_with_reason", sql`${answer.accepted} or ${answer.why} <> ''`),
  ],
);
