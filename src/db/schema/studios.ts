import { sql } from "drizzle-orm";
import { boolean, check, integer, pgTable, smallint, text } from "drizzle-orm/pg-core";
import { decimal, lengthIs } from "./columns.ts";

/** The one studio whose library this database is. */
export const studios = pgTable(
  "studios",
  {
    only: integer().primaryKey(),
    name: text().notNull(),
    /** Whether a visitor without an account may read what its owners show to everyone. */
    showsPublic: boolean().notNull(),
    /** The step of the studio's scale. */
    scaleGrams: decimal({ precision: 7, scale: 4 }).notNull().default(sql`0.1`),
    /** How long an approval holds; for ever where null. */
    approvalMonths: smallint(),
    /** Whose limits leach reports are held against, by the ids of the limits' tables. */
    jurisdictions: text().array().notNull().default([]),
    /** How far, ΔE00, a bucket's proof tile may be from its first; no line is drawn where null. */
    colourTolerance: decimal({ precision: 5, scale: 2 }),
    /** What prices are shown in; the currency last paid in where null. */
    currency: text(),
    /** How far a weight may be from the batch sheet, percent of its line. */
    mixTolerancePercent: decimal({ precision: 5, scale: 2 }).notNull().default(sql`1`),
    /** For how many weeks of use there should be powder in the room. */
    stockWeeks: smallint().notNull().default(6),
  },
  (studio) => [
    check("studios_is_one", sql`${studio.only} = 1`),
    check("studios_scale_possible", sql`${studio.scaleGrams} > 0 and ${studio.scaleGrams} <= 100`),
    check("studios_approval_months_possible", sql`${studio.approvalMonths} between 1 and 120`),
    check("studios_jurisdictions_few", sql`cardinality(${studio.jurisdictions}) <= 20`),
    check(
      "studios_tolerance_possible",
      sql`${studio.colourTolerance} > 0 and ${studio.colourTolerance} <= 50`,
    ),
    check("studios_currency_shape", sql`${studio.currency} ~ '^[A-Z]{3}$'`),
    check(
      "studios_mix_tolerance_possible",
      sql`${studio.mixTolerancePercent} > 0 and ${studio.mixTolerancePercent} <= 50`,
    ),
    check("studios_stock_weeks_possible", sql`${studio.stockWeeks} between 1 and 104`),
    check("studios_name_length", lengthIs(studio.name, 1, 80)),
  ],
);
