import { sql } from "drizzle-orm";
import { boolean, check, index, pgTable, smallint, text, uuid } from "drizzle-orm/pg-core";
import { bodies } from "./bodies.ts";
import { buckets } from "./buckets.ts";
import { decimal, id, lengthIs, moment, oneOf } from "./columns.ts";
import { people } from "./people.ts";

/** What somebody measured of a bucket, or that it was stirred. Append-only. */
export const bucketReadings = pgTable(
  "bucket_readings",
  {
    id: id(),
    bucketId: uuid()
      .notNull()
      .references(() => buckets.id),
    specificGravity: decimal({ precision: 5, scale: 3 }),
    litres: decimal({ precision: 8, scale: 3 }),
    celsius: decimal({ precision: 4, scale: 1 }),
    flowSeconds: decimal({ precision: 6, scale: 1 }),
    coatMm: decimal({ precision: 5, scale: 2 }),
    stirred: boolean().notNull(),
    note: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (reading) => [
    index("bucket_readings_of_bucket").on(reading.bucketId, reading.id),
    check("bucket_readings_gravity_possible", sql`${reading.specificGravity} between 1 and 3`),
    check("bucket_readings_litres_possible", sql`${reading.litres} between 0 and 10000`),
    check("bucket_readings_celsius_possible", sql`${reading.celsius} between -20 and 60`),
    check(
      "bucket_readings_flow_possible",
      sql`${reading.flowSeconds} > 0 and ${reading.flowSeconds} <= 3600`,
    ),
    check("bucket_readings_coat_possible", sql`${reading.coatMm} > 0 and ${reading.coatMm} <= 20`),
    check("bucket_readings_note_length", lengthIs(reading.note, 0, 1000)),
  ],
);

export const bucketAdditives = ["water", "water off", "flocculant", "deflocculant"] as const;
export const additiveUnits = ["g", "ml", "drops"] as const;

/** What went into a bucket beside the mixes: its own history, never the recipe's. Append-only. */
export const bucketAdditions = pgTable(
  "bucket_additions",
  {
    id: id(),
    bucketId: uuid()
      .notNull()
      .references(() => buckets.id),
    what: text({ enum: bucketAdditives }).notNull(),
    /** Such as Epsom salts. */
    named: text().notNull(),
    amount: decimal({ precision: 10, scale: 3 }).notNull(),
    unit: text({ enum: additiveUnits }).notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (addition) => [
    index("bucket_additions_of_bucket").on(addition.bucketId, addition.id),
    check("bucket_additions_what_known", oneOf(addition.what, bucketAdditives)),
    check("bucket_additions_unit_known", oneOf(addition.unit, additiveUnits)),
    check("bucket_additions_named_length", lengthIs(addition.named, 0, 80)),
    check(
      "bucket_additions_amount_possible",
      sql`${addition.amount} > 0 and ${addition.amount} <= 1000000`,
    ),
  ],
);

/** How a bucket should be and how to use it: targets and the card. Append-only: the newest counts. */
export const bucketDirections = pgTable(
  "bucket_directions",
  {
    id: id(),
    bucketId: uuid()
      .notNull()
      .references(() => buckets.id),
    gravityLow: decimal({ precision: 5, scale: 3 }),
    gravityHigh: decimal({ precision: 5, scale: 3 }),
    flowLow: decimal({ precision: 6, scale: 1 }),
    flowHigh: decimal({ precision: 6, scale: 1 }),
    coatLow: decimal({ precision: 5, scale: 2 }),
    coatHigh: decimal({ precision: 5, scale: 2 }),
    bodyId: uuid().references(() => bodies.id),
    bisqueCone: text(),
    dipSeconds: decimal({ precision: 5, scale: 1 }),
    coats: smallint(),
    /** How far to keep clear of the foot. */
    footMm: decimal({ precision: 5, scale: 1 }),
    catchDish: boolean().notNull(),
    sieve: text().notNull(),
    stirring: text().notNull(),
    keepsMonths: smallint(),
    /** Whom to ask. */
    ask: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (directions) => [
    index("bucket_directions_of_bucket").on(directions.bucketId, directions.id),
    check(
      "bucket_directions_gravity_possible",
      sql`${directions.gravityLow} between 1 and 3 and ${directions.gravityHigh} between ${directions.gravityLow} and 3`,
    ),
    check(
      "bucket_directions_flow_possible",
      sql`${directions.flowLow} between 0 and 3600 and ${directions.flowHigh} between ${directions.flowLow} and 3600`,
    ),
    check(
      "bucket_directions_coat_possible",
      sql`${directions.coatLow} between 0 and 20 and ${directions.coatHigh} between ${directions.coatLow} and 20`,
    ),
    check("bucket_directions_bisque_shape", sql`${directions.bisqueCone} ~ '^0?[0-9]{1,2}(½)?$'`),
    check(
      "bucket_directions_dip_possible",
      sql`${directions.dipSeconds} > 0 and ${directions.dipSeconds} <= 600`,
    ),
    check("bucket_directions_coats_count", sql`${directions.coats} between 1 and 20`),
    check("bucket_directions_foot_possible", sql`${directions.footMm} between 0 and 200`),
    check("bucket_directions_sieve_length", lengthIs(directions.sieve, 0, 80)),
    check("bucket_directions_stirring_length", lengthIs(directions.stirring, 0, 200)),
    check("bucket_directions_keeps_possible", sql`${directions.keepsMonths} between 1 and 240`),
    check("bucket_directions_ask_length", lengthIs(directions.ask, 0, 120)),
  ],
);

export const bucketTroubles = [
  "contaminated",
  "lumpy",
  "thin",
  "wrong colour",
  "no label",
] as const;

/** What somebody noticed of a bucket. Append-only. */
export const bucketReports = pgTable(
  "bucket_reports",
  {
    id: id(),
    bucketId: uuid()
      .notNull()
      .references(() => buckets.id),
    trouble: text({ enum: bucketTroubles }).notNull(),
    note: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (report) => [
    index("bucket_reports_of_bucket").on(report.bucketId, report.id),
    check("bucket_reports_trouble_known", oneOf(report.trouble, bucketTroubles)),
    check("bucket_reports_note_length", lengthIs(report.note, 0, 1000)),
  ],
);

/** What was done about a report, which ends it. Append-only. */
export const bucketReportAnswers = pgTable(
  "bucket_report_answers",
  {
    reportId: uuid()
      .primaryKey()
      .references(() => bucketReports.id),
    done: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (answer) => [check("bucket_report_answers_done_length", lengthIs(answer.done, 1, 1000))],
);

/** That somebody glazed with a bucket, so that a recall reaches them. Append-only. */
export const bucketUses = pgTable(
  "bucket_uses",
  {
    id: id(),
    bucketId: uuid()
      .notNull()
      .references(() => buckets.id),
    what: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (use) => [
    index("bucket_uses_of_bucket").on(use.bucketId, use.id),
    index("bucket_uses_of_person").on(use.by, use.id),
    check("bucket_uses_what_length", lengthIs(use.what, 0, 200)),
  ],
);

/** A use that was ticked by mistake. Append-only. */
export const bucketUseUndoings = pgTable("bucket_use_undoings", {
  useId: uuid()
    .primaryKey()
    .references(() => bucketUses.id),
  by: uuid()
    .notNull()
    .references(() => people.id),
  at: moment().notNull(),
});
