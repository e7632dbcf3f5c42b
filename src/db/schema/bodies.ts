import { sql } from "drizzle-orm";
import { check, index, integer, pgTable, smallint, text, uuid } from "drizzle-orm/pg-core";
import { decimal, id, lengthIs, moment, sortedText } from "./columns.ts";
import { people } from "./people.ts";

/** A clay that tiles and pots are made of. What is known of it is in its sheets. */
export const bodies = pgTable(
  "bodies",
  {
    id: id(),
    slug: text().notNull().unique("bodies_slug_unique"),
    name: text().notNull(),
    nameKey: sortedText().notNull().unique("bodies_name_unique"),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (body) => [
    check("bodies_slug_shape", sql`${body.slug} ~ '^[a-z0-9]+(-[a-z0-9]+)*$'`),
    check("bodies_slug_length", lengthIs(body.slug, 1, 80)),
    check("bodies_name_length", lengthIs(body.name, 1, 80)),
  ],
);

/** What is known of a body, from a source. Append-only: the newest counts. */
export const bodySheets = pgTable(
  "body_sheets",
  {
    id: id(),
    bodyId: uuid()
      .notNull()
      .references(() => bodies.id),
    coneLow: text().notNull(),
    coneHigh: text().notNull(),
    /** Places of the cones in the ordered list. */
    coneLowPlace: smallint().notNull(),
    coneHighPlace: smallint().notNull(),
    absorptionPercent: decimal({ precision: 6, scale: 3 }),
    absorptionSource: text().notNull(),
    /** Linear, 1e-6/K, over the range beside it. */
    expansion: decimal({ precision: 6, scale: 3 }),
    expansionFromCelsius: integer(),
    expansionToCelsius: integer(),
    expansionSource: text().notNull(),
    colour: text().notNull(),
    about: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (sheet) => [
    index("body_sheets_of_body").on(sheet.bodyId, sheet.id),
    check(
      "body_sheets_cone_shape",
      sql`${sheet.coneLow} ~ '^0?[0-9]{1,2}(½)?$' and ${sheet.coneHigh} ~ '^0?[0-9]{1,2}(½)?$'`,
    ),
    check(
      "body_sheets_cones_in_order",
      sql`${sheet.coneLowPlace} between 0 and ${sheet.coneHighPlace} and ${sheet.coneHighPlace} <= 100`,
    ),
    check("body_sheets_absorption_possible", sql`${sheet.absorptionPercent} between 0 and 40`),
    check(
      "body_sheets_absorption_has_source",
      sql`${sheet.absorptionPercent} is null or ${sheet.absorptionSource} <> ''`,
    ),
    check("body_sheets_absorption_source_length", lengthIs(sheet.absorptionSource, 0, 300)),
    check("body_sheets_expansion_possible", sql`${sheet.expansion} between 0 and 30`),
    check(
      "body_sheets_expansion_has_range",
      sql`${sheet.expansion} is null or (${sheet.expansionFromCelsius} is not null and ${sheet.expansionToCelsius} is not null)`,
    ),
    check(
      "body_sheets_expansion_range_possible",
      sql`${sheet.expansionFromCelsius} between -50 and 1000 and ${sheet.expansionToCelsius} between ${sheet.expansionFromCelsius} + 1 and 1300`,
    ),
    check("body_sheets_expansion_source_length", lengthIs(sheet.expansionSource, 0, 300)),
    check("body_sheets_colour_length", lengthIs(sheet.colour, 0, 60)),
    check("body_sheets_about_length", lengthIs(sheet.about, 0, 4000)),
  ],
);
