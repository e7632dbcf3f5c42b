import { sql } from "drizzle-orm";
import { check, date, foreignKey, index, pgTable, text, uuid } from "drizzle-orm/pg-core";
import { decimal, id, lengthIs, moment, sortedText } from "./columns.ts";
import { analyses, materials } from "./materials.ts";
import { people } from "./people.ts";

/** Who sells powders. */
export const suppliers = pgTable(
  "suppliers",
  {
    id: id(),
    slug: text().notNull().unique("suppliers_slug_unique"),
    name: text().notNull(),
    nameKey: sortedText().notNull().unique("suppliers_name_unique"),
    about: text().notNull(),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (supplier) => [
    check("suppliers_slug_shape", sql`${supplier.slug} ~ '^[a-z0-9]+(-[a-z0-9]+)*$'`),
    check("suppliers_slug_length", lengthIs(supplier.slug, 1, 80)),
    check("suppliers_name_length", lengthIs(supplier.name, 1, 80)),
    check("suppliers_about_length", lengthIs(supplier.about, 0, 2000)),
  ],
);

/** What was bought of a powder at one time. Append-only. */
export const lots = pgTable(
  "lots",
  {
    id: id(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    supplierId: uuid()
      .notNull()
      .references(() => suppliers.id),
    /** Of this lot; where there is none, the material's newest stands in, marked so. */
    analysisId: uuid(),
    packGrams: decimal({ precision: 12, scale: 3 }).notNull(),
    packPrice: decimal({ precision: 12, scale: 4 }).notNull(),
    currency: text().notNull(),
    grams: decimal({ precision: 12, scale: 3 }).notNull(),
    mark: text().notNull(),
    /** After which it is not to be relied on: gums rot and some powders take up water. */
    bestBefore: date({ mode: "string" }),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (lot) => [
    index("lots_of_material").on(lot.materialId, lot.id),
    foreignKey({
      columns: [lot.materialId, lot.analysisId],
      foreignColumns: [analyses.materialId, analyses.id],
      name: "lots_analysis_of_this_material",
    }),
    // Postgres sorts NaN above every number, so the upper bounds keep it out.
    check("lots_pack_grams_weighable", sql`${lot.packGrams} > 0 and ${lot.packGrams} <= 100000000`),
    check("lots_pack_price_payable", sql`${lot.packPrice} between 0 and 10000000`),
    check("lots_currency_shape", sql`${lot.currency} ~ '^[A-Z]{3}$'`),
    check("lots_grams_weighable", sql`${lot.grams} between 0 and 100000000`),
    check("lots_mark_length", lengthIs(lot.mark, 0, 80)),
  ],
);
