import { sql } from "drizzle-orm";
import { check, pgTable, text, unique, uuid } from "drizzle-orm/pg-core";
import { id, lengthIs, moment, sortedText } from "./columns.ts";
import { people } from "./people.ts";

/** A search of the library that somebody comes back to: the part of its address after the "?". */
export const savedSearches = pgTable(
  "saved_searches",
  {
    id: id(),
    personId: uuid()
      .notNull()
      .references(() => people.id),
    name: text().notNull(),
    nameKey: sortedText().notNull(),
    query: text().notNull(),
    savedAt: moment().notNull(),
  },
  (search) => [
    unique("saved_searches_name_unique").on(search.personId, search.nameKey),
    check("saved_searches_name_length", lengthIs(search.name, 1, 80)),
    check("saved_searches_query_length", lengthIs(search.query, 1, 2000)),
    check("saved_searches_query_shape", sql`${search.query} !~ '[[:space:]#]'`),
  ],
);
