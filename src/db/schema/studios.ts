import { sql } from "drizzle-orm";
import { boolean, check, integer, pgTable, text } from "drizzle-orm/pg-core";
import { lengthIs } from "./columns.ts";

/** The one studio whose library this database is. */
export const studios = pgTable(
  "studios",
  {
    only: integer().primaryKey(),
    name: text().notNull(),
    /** Whether a visitor without an account may read what its owners show to everyone. */
    showsPublic: boolean().notNull(),
  },
  (studio) => [
    check("studios_is_one", sql`${studio.only} = 1`),
    check("studios_name_length", lengthIs(studio.name, 1, 80)),
  ],
);
