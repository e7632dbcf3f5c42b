import { sql } from "drizzle-orm";
import { boolean, check, date, index, pgTable, text, unique, uuid } from "drizzle-orm/pg-core";
import { buckets } from "./buckets.ts";
import { decimal, id, lengthIs, moment, oneOf } from "./columns.ts";
import { lots, suppliers } from "./lots.ts";
import { materials } from "./materials.ts";
import { mixTicks } from "./mixes.ts";
import { people } from "./people.ts";

export const stockReasons = ["mix", "undone", "stocktake", "other use"] as const;

/**
 * What came out of a lot, below 0, or was found in it, above: what is left is what was bought with
 * all of these. Append-only.
 */
export const stockMoves = pgTable(
  "stock_moves",
  {
    id: id(),
    lotId: uuid()
      .notNull()
      .references(() => lots.id),
    grams: decimal({ precision: 14, scale: 4 }).notNull(),
    because: text({ enum: stockReasons }).notNull(),
    tickId: uuid().references(() => mixTicks.id),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (move) => [
    index("stock_moves_of_lot").on(move.lotId, move.id),
    unique("stock_moves_once_a_tick").on(move.tickId, move.because),
    check("stock_moves_grams_possible", sql`abs(${move.grams}) <= 1000000000`),
    check("stock_moves_because_known", oneOf(move.because, stockReasons)),
    check(
      "stock_moves_tick_where_mixed",
      sql`(${move.tickId} is not null) = (${move.because} in ('mix', 'undone'))`,
    ),
    check("stock_moves_why_length", lengthIs(move.why, 0, 1000)),
  ],
);

/** How much of a powder should always be there, where use alone does not tell. Append-only. */
export const stockLines = pgTable(
  "stock_lines",
  {
    id: id(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    /** null goes back to what follows from use. */
    grams: decimal({ precision: 12, scale: 3 }),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (line) => [
    index("stock_lines_of_material").on(line.materialId, line.id),
    check("stock_lines_grams_possible", sql`${line.grams} between 0 and 100000000`),
  ],
);

/** A lot or a bucket that nobody may use any more, for safety. Append-only. */
export const recalls = pgTable(
  "recalls",
  {
    id: id(),
    lotId: uuid().references(() => lots.id),
    bucketId: uuid().references(() => buckets.id),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (recall) => [
    index("recalls_of_lot").on(recall.lotId),
    index("recalls_of_bucket").on(recall.bucketId),
    check("recalls_of_one_thing", sql`num_nonnulls(${recall.lotId}, ${recall.bucketId}) = 1`),
    check("recalls_why_length", lengthIs(recall.why, 1, 2000)),
  ],
);

/** What was done about a recall, which ends it. Append-only. */
export const recallClosings = pgTable(
  "recall_closings",
  {
    recallId: uuid()
      .primaryKey()
      .references(() => recalls.id),
    done: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (closing) => [check("recall_closings_done_length", lengthIs(closing.done, 1, 2000))],
);

/** A pack that a supplier sells, at a price. Append-only: the newest of the same pack counts. */
export const packs = pgTable(
  "packs",
  {
    id: id(),
    supplierId: uuid()
      .notNull()
      .references(() => suppliers.id),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    packGrams: decimal({ precision: 12, scale: 3 }).notNull(),
    packPrice: decimal({ precision: 12, scale: 4 }).notNull(),
    currency: text().notNull(),
    stillSold: boolean().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (pack) => [
    index("packs_of_material").on(pack.materialId, pack.supplierId, pack.packGrams, pack.id),
    check("packs_grams_weighable", sql`${pack.packGrams} > 0 and ${pack.packGrams} <= 100000000`),
    check("packs_price_payable", sql`${pack.packPrice} between 0 and 10000000`),
    check("packs_currency_shape", sql`${pack.currency} ~ '^[A-Z]{3}$'`),
  ],
);

/** What a supplier takes for carriage, and whose words it uses. Append-only: the newest counts. */
export const supplierTerms = pgTable(
  "supplier_terms",
  {
    id: id(),
    supplierId: uuid()
      .notNull()
      .references(() => suppliers.id),
    region: text().notNull(),
    carriage: decimal({ precision: 12, scale: 4 }).notNull(),
    /** From this much on it sends without carriage. */
    freeFrom: decimal({ precision: 12, scale: 4 }),
    currency: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (terms) => [
    index("supplier_terms_of_supplier").on(terms.supplierId, terms.id),
    check("supplier_terms_region_length", lengthIs(terms.region, 0, 60)),
    check("supplier_terms_carriage_payable", sql`${terms.carriage} between 0 and 10000000`),
    check("supplier_terms_free_from_payable", sql`${terms.freeFrom} between 0 and 10000000`),
    check("supplier_terms_currency_shape", sql`${terms.currency} ~ '^[A-Z]{3}$'`),
  ],
);

/** The specific gravity of a dry powder. Append-only: the newest counts. */
export const materialGravities = pgTable(
  "material_gravities",
  {
    id: id(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    gravity: decimal({ precision: 6, scale: 3 }).notNull(),
    source: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (gravity) => [
    index("material_gravities_of_material").on(gravity.materialId, gravity.id),
    check("material_gravities_possible", sql`${gravity.gravity} > 1 and ${gravity.gravity} <= 8`),
    check("material_gravities_source_length", lengthIs(gravity.source, 1, 300)),
  ],
);

export const signals = ["danger", "warning", "none"] as const;

/** What the supplier's safety data sheet says, word for word. Append-only: the newest counts. */
export const dataSheets = pgTable(
  "data_sheets",
  {
    id: id(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    signal: text({ enum: signals }).notNull(),
    statements: text().array().notNull(),
    precautions: text().array().notNull(),
    issuedOn: date({ mode: "string" }),
    source: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (sheet) => [
    index("data_sheets_of_material").on(sheet.materialId, sheet.id),
    check("data_sheets_signal_known", oneOf(sheet.signal, signals)),
    check("data_sheets_statements_few", sql`cardinality(${sheet.statements}) <= 30`),
    check("data_sheets_precautions_few", sql`cardinality(${sheet.precautions}) <= 40`),
    check("data_sheets_source_length", lengthIs(sheet.source, 1, 300)),
  ],
);
