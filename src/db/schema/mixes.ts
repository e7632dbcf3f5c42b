import { sql } from "drizzle-orm";
import {
  check,
  foreignKey,
  index,
  pgTable,
  primaryKey,
  smallint,
  text,
  unique,
  uuid,
} from "drizzle-orm/pg-core";
import { buckets } from "./buckets.ts";
import { decimal, id, lengthIs, moment, oneOf } from "./columns.ts";
import { lots } from "./lots.ts";
import { analyses, materials } from "./materials.ts";
import { people } from "./people.ts";
import { parts, revisions } from "./recipes.ts";

export const mixEndings = ["finished", "given up"] as const;

/** A batch that is weighed into a bucket. Append-only, with its lines, ticks and end. */
export const mixes = pgTable(
  "mixes",
  {
    id: id(),
    bucketId: uuid()
      .notNull()
      .references(() => buckets.id),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    baseGrams: decimal({ precision: 12, scale: 4 }).notNull(),
    scaleGrams: decimal({ precision: 8, scale: 4 }).notNull(),
    /** The water that the batch sheet says; null where it was asked for by weight alone. */
    waterGrams: decimal({ precision: 12, scale: 1 }),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (mix) => [
    index("mixes_of_bucket").on(mix.bucketId, mix.id),
    // Postgres sorts NaN above every number, so the upper bounds keep it out.
    check("mixes_base_weighable", sql`${mix.baseGrams} > 0 and ${mix.baseGrams} <= 1000000`),
    check("mixes_scale_possible", sql`${mix.scaleGrams} > 0 and ${mix.scaleGrams} <= 1000`),
    check("mixes_water_possible", sql`${mix.waterGrams} between 0 and 10000000`),
  ],
);

/** What the batch sheet says of one line, in weighing order from 1. Append-only. */
export const mixLines = pgTable(
  "mix_lines",
  {
    mixId: uuid()
      .notNull()
      .references(() => mixes.id),
    n: smallint().notNull(),
    part: text({ enum: parts }).notNull(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    /** The one that the revision pins; null where the material has none. */
    analysisId: uuid().references(() => analyses.id),
    grams: decimal({ precision: 12, scale: 4 }).notNull(),
  },
  (line) => [
    primaryKey({ columns: [line.mixId, line.n] }),
    check("mix_lines_n_counts", sql`${line.n} between 1 and 64`),
    check("mix_lines_part_known", oneOf(line.part, parts)),
    check("mix_lines_grams_weighable", sql`${line.grams} between 0 and 1000000`),
  ],
);

/** What really went in of a line, of which lot. Append-only: a wrong one is undone by another row. */
export const mixTicks = pgTable(
  "mix_ticks",
  {
    id: id(),
    mixId: uuid().notNull(),
    n: smallint().notNull(),
    /** null where nobody could tell which bag it came out of. */
    lotId: uuid().references(() => lots.id),
    grams: decimal({ precision: 12, scale: 4 }).notNull(),
    /** Made by the page that sent it, so that sent twice it counts once. */
    key: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (tick) => [
    foreignKey({
      columns: [tick.mixId, tick.n],
      foreignColumns: [mixLines.mixId, mixLines.n],
      name: "mix_ticks_of_a_line",
    }),
    unique("mix_ticks_once").on(tick.mixId, tick.key),
    index("mix_ticks_of_line").on(tick.mixId, tick.n, tick.id),
    index("mix_ticks_of_lot").on(tick.lotId),
    check("mix_ticks_grams_weighable", sql`${tick.grams} > 0 and ${tick.grams} <= 1000000`),
    check("mix_ticks_key_length", lengthIs(tick.key, 8, 80)),
  ],
);

/** A tick taken back. Append-only. */
export const mixTickUndoings = pgTable("mix_tick_undoings", {
  tickId: uuid()
    .primaryKey()
    .references(() => mixTicks.id),
  by: uuid()
    .notNull()
    .references(() => people.id),
  at: moment().notNull(),
});

/** A mix that is done with. Append-only. */
export const mixEnds = pgTable(
  "mix_ends",
  {
    mixId: uuid()
      .primaryKey()
      .references(() => mixes.id),
    is: text({ enum: mixEndings }).notNull(),
    /** What was really put in. */
    waterGrams: decimal({ precision: 12, scale: 1 }),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (end) => [
    check("mix_ends_is_known", oneOf(end.is, mixEndings)),
    check("mix_ends_water_possible", sql`${end.waterGrams} between 0 and 10000000`),
    check("mix_ends_why_length", lengthIs(end.why, 0, 1000)),
  ],
);

/** A batch that the studio means to mix. Append-only. */
export const mixPlans = pgTable(
  "mix_plans",
  {
    id: id(),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    baseGrams: decimal({ precision: 12, scale: 4 }).notNull(),
    note: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (plan) => [
    check("mix_plans_base_weighable", sql`${plan.baseGrams} > 0 and ${plan.baseGrams} <= 1000000`),
    check("mix_plans_note_length", lengthIs(plan.note, 0, 500)),
  ],
);

export const planEndings = ["mixed", "dropped"] as const;

/** A planned batch that needs no powder any more. Append-only. */
export const mixPlanEnds = pgTable(
  "mix_plan_ends",
  {
    planId: uuid()
      .primaryKey()
      .references(() => mixPlans.id),
    is: text({ enum: planEndings }).notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (end) => [check("mix_plan_ends_is_known", oneOf(end.is, planEndings))],
);
