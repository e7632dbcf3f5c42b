import { sql } from "drizzle-orm";
import {
  check,
  doublePrecision,
  foreignKey,
  index,
  jsonb,
  pgTable,
  primaryKey,
  smallint,
  text,
  uuid,
} from "drizzle-orm/pg-core";
import { bodies } from "./bodies.ts";
import { id, lengthIs, moment, oneOf, sortedText } from "./columns.ts";
import { firings } from "./firings.ts";
import { people } from "./people.ts";
import { recipes } from "./recipes.ts";
import { defects, pictures } from "./tiles.ts";

export const trialKinds = ["ladder", "line", "triaxial", "grid"] as const;
export const measures = ["dry weight", "slurry volume"] as const;

/** One line of a trial's point, pinned like a revision's: an amount is a decimal in plain digits. */
export type PointLine = {
  part: "base" | "addition";
  materialId: string;
  analysisId: string | null;
  amount: string;
};

/** A blend that somebody means to weigh, fire and look at. Append-only. */
export const trials = pgTable(
  "trials",
  {
    id: id(),
    name: text().notNull(),
    nameKey: sortedText().notNull(),
    kind: text({ enum: trialKinds }).notNull(),
    measure: text({ enum: measures }).notNull(),
    /** What was asked for, word for word: corners, steps, spacing. */
    question: jsonb().$type<Record<string, unknown>>().notNull(),
    about: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (trial) => [
    index("trials_in_order").on(trial.at, trial.id),
    check("trials_name_length", lengthIs(trial.name, 1, 80)),
    check("trials_kind_known", oneOf(trial.kind, trialKinds)),
    check("trials_measure_known", oneOf(trial.measure, measures)),
    check("trials_about_length", lengthIs(trial.about, 0, 4000)),
  ],
);

/** One point of a trial: how much of each corner, and what to weigh. Append-only. */
export const trialPoints = pgTable(
  "trial_points",
  {
    trialId: uuid()
      .notNull()
      .references(() => trials.id),
    n: smallint().notNull(),
    shares: doublePrecision().array().notNull(),
    lines: jsonb().$type<PointLine[]>().notNull(),
  },
  (point) => [
    primaryKey({ columns: [point.trialId, point.n] }),
    check("trial_points_n_counts", sql`${point.n} between 1 and 500`),
    check("trial_points_shares_few", sql`cardinality(${point.shares}) between 1 and 4`),
  ],
);

/** What came of a point in the fire. Append-only: a point can be fired more than once. */
export const trialResults = pgTable(
  "trial_results",
  {
    id: id(),
    trialId: uuid().notNull(),
    n: smallint().notNull(),
    bodyId: uuid().references(() => bodies.id),
    firingId: uuid().references(() => firings.id),
    cone: text(),
    surface: text().notNull(),
    defects: text({ enum: defects }).array().notNull(),
    remark: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (result) => [
    foreignKey({
      columns: [result.trialId, result.n],
      foreignColumns: [trialPoints.trialId, trialPoints.n],
      name: "trial_results_of_a_point",
    }),
    index("trial_results_of_point").on(result.trialId, result.n, result.id),
    check("trial_results_cone_shape", sql`${result.cone} ~ '^0?[0-9]{1,2}(½)?$'`),
    check("trial_results_surface_length", lengthIs(result.surface, 0, 60)),
    check("trial_results_remark_length", lengthIs(result.remark, 0, 2000)),
  ],
);

/** What was put down wrong stays on record, with the reason. Append-only. */
export const trialResultWithdrawals = pgTable(
  "trial_result_withdrawals",
  {
    resultId: uuid()
      .primaryKey()
      .references(() => trialResults.id),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (withdrawal) => [check("trial_result_withdrawals_why_length", lengthIs(withdrawal.why, 1, 1000))],
);

/** A picture of what came of a point. Append-only. */
export const trialPhotos = pgTable(
  "trial_photos",
  {
    id: id(),
    resultId: uuid()
      .notNull()
      .references(() => trialResults.id),
    sha256: text()
      .notNull()
      .references(() => pictures.sha256),
    alt: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (photo) => [
    index("trial_photos_of_result").on(photo.resultId, photo.id),
    index("trial_photos_of_picture").on(photo.sha256),
    check("trial_photos_alt_length", lengthIs(photo.alt, 0, 500)),
  ],
);

/** A point that became a recipe. Append-only. */
export const trialRecipes = pgTable(
  "trial_recipes",
  {
    recipeId: uuid()
      .primaryKey()
      .references(() => recipes.id),
    trialId: uuid().notNull(),
    n: smallint().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (made) => [
    foreignKey({
      columns: [made.trialId, made.n],
      foreignColumns: [trialPoints.trialId, trialPoints.n],
      name: "trial_recipes_of_a_point",
    }),
    index("trial_recipes_of_trial").on(made.trialId, made.n),
  ],
);
