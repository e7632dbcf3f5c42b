import { sql } from "drizzle-orm";
import {
  check,
  index,
  integer,
  pgTable,
  primaryKey,
  smallint,
  text,
  uuid,
} from "drizzle-orm/pg-core";
import { bytes, decimal, id, isDigest, lengthIs, moment, oneOf } from "./columns.ts";
import { people } from "./people.ts";
import { revisions } from "./recipes.ts";
import { pictures, tiles } from "./tiles.ts";

export const testKinds = [
  "acid",
  "alkali",
  "dishwasher",
  "thermal shock",
  "microwave",
  "knife",
  "leach",
] as const;
export const testOutcomes = ["passed", "failed", "unclear"] as const;

/** What somebody did to a tile, or a laboratory found in it. Append-only. */
export const tests = pgTable(
  "tests",
  {
    id: id(),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    tileId: uuid().references(() => tiles.id),
    kind: text({ enum: testKinds }).notNull(),
    method: text().notNull(),
    /** Who made it, where that was a laboratory. */
    laboratory: text().notNull(),
    articleClass: text().notNull(),
    /** Which report it is, as its number and date. */
    report: text().notNull(),
    outcome: text({ enum: testOutcomes }).notNull(),
    remark: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (test) => [
    index("tests_of_revision").on(test.revisionId, test.id),
    index("tests_of_tile").on(test.tileId),
    check("tests_kind_known", oneOf(test.kind, testKinds)),
    check("tests_outcome_known", oneOf(test.outcome, testOutcomes)),
    check("tests_method_length", lengthIs(test.method, 1, 500)),
    check("tests_laboratory_length", lengthIs(test.laboratory, 0, 120)),
    check("tests_article_class_length", lengthIs(test.articleClass, 0, 80)),
    check("tests_report_length", lengthIs(test.report, 0, 300)),
    check("tests_remark_length", lengthIs(test.remark, 0, 2000)),
    // No home test stands in for a leach report.
    check("tests_leach_is_a_laboratorys", sql`${test.kind} <> 'leach' or ${test.laboratory} <> ''`),
  ],
);

/** One figure of a leach report, in the report's own unit. Append-only. */
export const testResults = pgTable(
  "test_results",
  {
    testId: uuid()
      .notNull()
      .references(() => tests.id),
    position: smallint().notNull(),
    element: text().notNull(),
    qualifier: text({ enum: ["=", "<"] }).notNull(),
    value: decimal({ precision: 15, scale: 6 }).notNull(),
    unit: text().notNull(),
    detectionLimit: decimal({ precision: 15, scale: 6 }),
    specimen: text().notNull(),
  },
  (result) => [
    primaryKey({ columns: [result.testId, result.position] }),
    check("test_results_position_counts", sql`${result.position} between 0 and 199`),
    check("test_results_element_shape", sql`${result.element} ~ '^[A-Z][a-z]?$'`),
    check("test_results_qualifier_known", sql`${result.qualifier} in ('=', '<')`),
    check("test_results_value_possible", sql`${result.value} between 0 and 1000000`),
    check("test_results_unit_length", lengthIs(result.unit, 1, 20)),
    check("test_results_limit_possible", sql`${result.detectionLimit} between 0 and 1000000`),
    check("test_results_specimen_length", lengthIs(result.specimen, 0, 80)),
  ],
);

/** A test that turned out to be wrong stays on record, with the reason. Append-only. */
export const testWithdrawals = pgTable(
  "test_withdrawals",
  {
    testId: uuid()
      .primaryKey()
      .references(() => tests.id),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (withdrawal) => [check("test_withdrawals_why_length", lengthIs(withdrawal.why, 1, 1000))],
);

/** A picture of a tile before or after a test. Append-only. */
export const testPhotos = pgTable(
  "test_photos",
  {
    id: id(),
    testId: uuid()
      .notNull()
      .references(() => tests.id),
    sha256: text()
      .notNull()
      .references(() => pictures.sha256),
    taken: text({ enum: ["before", "after"] }).notNull(),
    alt: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (photo) => [
    index("test_photos_of_test").on(photo.testId, photo.id),
    index("test_photos_of_picture").on(photo.sha256),
    check("test_photos_taken_known", sql`${photo.taken} in ('before', 'after')`),
    check("test_photos_alt_length", lengthIs(photo.alt, 0, 500)),
  ],
);

/** A laboratory's report as it came, a PDF. Append-only. */
export const testReports = pgTable(
  "test_reports",
  {
    testId: uuid()
      .notNull()
      .references(() => tests.id),
    sha256: text().notNull(),
    size: integer().notNull(),
    bytes: bytes().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (report) => [
    primaryKey({ columns: [report.testId, report.sha256] }),
    check("test_reports_sha256_is_digest", isDigest(report.sha256)),
    check("test_reports_size_possible", sql`${report.size} between 1 and 20971520`),
  ],
);
