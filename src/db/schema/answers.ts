import { check, jsonb, pgTable, primaryKey, smallint, text, uuid } from "drizzle-orm/pg-core";
import { isDigest, lengthIs, moment } from "./columns.ts";
import { people } from "./people.ts";

/** First answers to creating requests, kept for a day so that a double tap creates once. */
export const answers = pgTable(
  "answers",
  {
    personId: uuid()
      .notNull()
      .references(() => people.id),
    key: text().notNull(),
    request: text().notNull(),
    status: smallint(),
    headers: jsonb().$type<Record<string, string>>(),
    body: text(),
    at: moment().notNull(),
  },
  (answer) => [
    primaryKey({ columns: [answer.personId, answer.key] }),
    check("answers_key_length", lengthIs(answer.key, 1, 200)),
    check("answers_request_is_digest", isDigest(answer.request)),
  ],
);
