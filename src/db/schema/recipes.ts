import { sql } from "drizzle-orm";
import {
  type AnyPgColumn,
  boolean,
  check,
  doublePrecision,
  foreignKey,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  smallint,
  text,
  unique,
  uuid,
} from "drizzle-orm/pg-core";
import type { Chemistry } from "../../chem/chemistry.ts";
import { decimal, id, isDigest, lengthIs, moment, oneOf, sortedText } from "./columns.ts";
import { analyses, materials } from "./materials.ts";
import { people } from "./people.ts";

export const uses = ["functional", "decorative"] as const;
export const atmospheres = [
  "oxidation",
  "neutral",
  "reduction",
  "salt",
  "soda",
  "wood",
  "raku",
] as const;
export const parts = ["base", "addition"] as const;
export const visibilities = ["private", "studio", "public"] as const;
export type Visibility = (typeof visibilities)[number];

/** A glaze's place in the library. What it is made of is in its revisions. */
export const recipes = pgTable(
  "recipes",
  {
    id: id(),
    slug: text().notNull().unique("recipes_slug_unique"),
    name: text().notNull(),
    nameKey: sortedText().notNull().unique("recipes_name_unique"),
    ownerId: uuid()
      .notNull()
      .references(() => people.id),
    head: integer().notNull(),
    shownTo: text({ enum: visibilities }).notNull(),
    forkedFrom: uuid().references((): AnyPgColumn => revisions.id),
    addedAt: moment().notNull(),
  },
  (recipe) => [
    index("recipes_in_order").on(recipe.nameKey, recipe.id),
    index("recipes_of_owner").on(recipe.ownerId),
    index("recipes_forked_from").on(recipe.forkedFrom),
    check("recipes_slug_shape", sql`${recipe.slug} ~ '^[a-z0-9]+(-[a-z0-9]+)*$'`),
    check("recipes_slug_length", lengthIs(recipe.slug, 1, 80)),
    check("recipes_name_length", lengthIs(recipe.name, 1, 80)),
    check("recipes_head_counts", sql`${recipe.head} between 1 and 1000000`),
    check("recipes_shown_to_known", oneOf(recipe.shownTo, visibilities)),
  ],
);

/** What a recipe says at one point of its history. Append-only. */
export const revisions = pgTable(
  "revisions",
  {
    id: id(),
    recipeId: uuid()
      .notNull()
      .references((): AnyPgColumn => recipes.id),
    number: integer().notNull(),
    basedOn: integer(),
    authorId: uuid()
      .notNull()
      .references(() => people.id),
    use: text({ enum: uses }).notNull(),
    coneLow: text().notNull(),
    coneHigh: text().notNull(),
    /** Places of the cones in the ordered list, for searching; the words above are the record. */
    coneLowPlace: smallint().notNull(),
    coneHighPlace: smallint().notNull(),
    atmosphere: text({ enum: atmospheres }).notNull(),
    surface: text().notNull(),
    about: text().notNull(),
    message: text().notNull(),
    meltDigest: text().notNull(),
    digest: text().notNull(),
    publishedAt: moment().notNull(),
  },
  (revision) => [
    unique("revisions_number_unique").on(revision.recipeId, revision.number),
    index("revisions_of_melt").on(revision.meltDigest),
    index("revisions_of_digest").on(revision.digest, revision.id),
    check("revisions_number_counts", sql`${revision.number} between 1 and 1000000`),
    check(
      "revisions_based_on_earlier",
      sql`${revision.basedOn} between 1 and ${revision.number} - 1`,
    ),
    check("revisions_use_known", oneOf(revision.use, uses)),
    check(
      "revisions_cone_shape",
      sql`${revision.coneLow} ~ '^0?[0-9]{1,2}(½)?$' and ${revision.coneHigh} ~ '^0?[0-9]{1,2}(½)?$'`,
    ),
    check(
      "revisions_cones_in_order",
      sql`${revision.coneLowPlace} between 0 and ${revision.coneHighPlace} and ${revision.coneHighPlace} <= 100`,
    ),
    check("revisions_atmosphere_known", oneOf(revision.atmosphere, atmospheres)),
    check("revisions_surface_length", lengthIs(revision.surface, 0, 60)),
    check("revisions_about_length", lengthIs(revision.about, 0, 8000)),
    check("revisions_message_length", lengthIs(revision.message, 0, 500)),
    check("revisions_melt_digest_is_digest", isDigest(revision.meltDigest)),
    check("revisions_digest_is_digest", isDigest(revision.digest)),
  ],
);

/** One line of a revision, pinned to the analysis that was in use. Append-only. */
export const revisionLines = pgTable(
  "revision_lines",
  {
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    position: smallint().notNull(),
    part: text({ enum: parts }).notNull(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    analysisId: uuid(),
    amount: decimal({ precision: 13, scale: 6 }).notNull(),
  },
  (line) => [
    primaryKey({ columns: [line.revisionId, line.position] }),
    index("revision_lines_of_material").on(line.materialId),
    foreignKey({
      columns: [line.materialId, line.analysisId],
      foreignColumns: [analyses.materialId, analyses.id],
      name: "revision_lines_analysis_of_this_material",
    }),
    check("revision_lines_position_counts", sql`${line.position} between 0 and 63`),
    check("revision_lines_part_known", oneOf(line.part, parts)),
    // Postgres sorts NaN above every number, so the upper bound keeps it out.
    check("revision_lines_amount_weighable", sql`${line.amount} > 0 and ${line.amount} <= 1000000`),
    check(
      "revision_lines_base_is_analysed",
      sql`${line.part} = 'addition' or ${line.analysisId} is not null`,
    ),
  ],
);

/** Moles for every mole of flux, and what else a list or a search asks for. */
const unityColumn = (name: string) => doublePrecision(name);

/** What a revision's pinned analyses come to, by one version of the engine; worked out anew by the next. */
export const chemistries = pgTable(
  "chemistries",
  {
    revisionId: uuid()
      .primaryKey()
      .references(() => revisions.id),
    engine: text().notNull(),
    lossPercent: doublePrecision(),
    silicaToAlumina: doublePrecision(),
    alkaliShare: doublePrecision(),
    unityLi2O: unityColumn("unity_li2o"),
    unityNa2O: unityColumn("unity_na2o"),
    unityK2O: unityColumn("unity_k2o"),
    unityMgO: unityColumn("unity_mgo"),
    unityCaO: unityColumn("unity_cao"),
    unitySrO: unityColumn("unity_sro"),
    unityBaO: unityColumn("unity_bao"),
    unityZnO: unityColumn("unity_zno"),
    unityPbO: unityColumn("unity_pbo"),
    unityB2O3: unityColumn("unity_b2o3"),
    unityAl2O3: unityColumn("unity_al2o3"),
    unitySiO2: unityColumn("unity_sio2"),
    stops: smallint().notNull(),
    /** Elements for which a functional glaze needs a laboratory's leach report; null where an engine before 1.2.0 said nothing. */
    leachElements: text().array(),
    detail: jsonb().$type<Chemistry>().notNull(),
  },
  (chemistry) => [
    index("chemistries_of_engine").on(chemistry.engine),
    // Of all that the formula holds, silica and alumina spread recipes the furthest apart.
    index("chemistries_nearest").using(
      "gist",
      sql`point(${chemistry.unitySiO2}, ${chemistry.unityAl2O3})`,
    ),
    check("chemistries_engine_length", lengthIs(chemistry.engine, 1, 20)),
    check("chemistries_stops_counts", sql`${chemistry.stops} between 0 and 1000`),
  ],
);

/** A recipe taken back, or put forward again. Append-only: the newest counts. */
export const withdrawals = pgTable(
  "withdrawals",
  {
    id: id(),
    recipeId: uuid().notNull(),
    withdrawn: boolean().notNull(),
    /** Because it can hurt: what is the same in another recipe needs another look there too. */
    forSafety: boolean().notNull().default(false),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (withdrawal) => [
    foreignKey({ columns: [withdrawal.recipeId], foreignColumns: [recipes.id] }),
    index("withdrawals_of_recipe").on(withdrawal.recipeId, withdrawal.id),
    check(
      "withdrawals_only_for_safety_when_withdrawn",
      sql`${withdrawal.withdrawn} or not ${withdrawal.forSafety}`,
    ),
    check("withdrawals_why_length", lengthIs(withdrawal.why, 1, 1000)),
  ],
);
