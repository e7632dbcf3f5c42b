import { sql } from "drizzle-orm";
import {
  check,
  customType,
  doublePrecision,
  index,
  pgTable,
  smallint,
  text,
  timestamp,
  uuid,
} from "drizzle-orm/pg-core";
import { lengthIs, sortedText } from "./columns.ts";
import { people } from "./people.ts";
import { atmospheres, recipes, revisions, uses, visibilities } from "./recipes.ts";
import { standings } from "./reviews.ts";

const textSearchVector = customType<{ data: string }>({ dataType: () => "tsvector" });

/**
 * What the library is listed and narrowed by: of each recipe what its head says, in one row. It
 * follows from the record: triggers keep it in the transaction of whatever changes it, and
 * `recipe_heads_derived` derives it afresh.
 */
export const recipeHeads = pgTable(
  "recipe_heads",
  {
    recipeId: uuid()
      .primaryKey()
      .references(() => recipes.id),
    revisionId: uuid()
      .notNull()
      .unique("recipe_heads_revision_unique")
      .references(() => revisions.id),
    nameKey: sortedText().notNull(),
    ownerId: uuid()
      .notNull()
      .references(() => people.id),
    shownTo: text({ enum: visibilities }).notNull(),
    use: text({ enum: uses }).notNull(),
    coneLowPlace: smallint().notNull(),
    coneHighPlace: smallint().notNull(),
    atmosphere: text({ enum: atmospheres }).notNull(),
    surfaceKey: text().notNull(),
    meltDigest: text().notNull(),
    materials: uuid().array().notNull(),
    is: text({ enum: standings }).notNull(),
    for: text({ enum: uses }),
    /** Until when it counts as approved; null where it does not, or where that is yet to be settled. */
    approvedUntil: timestamp({ withTimezone: true, mode: "string" }),
    unityLi2O: doublePrecision("unity_li2o"),
    unityNa2O: doublePrecision("unity_na2o"),
    unityK2O: doublePrecision("unity_k2o"),
    unityMgO: doublePrecision("unity_mgo"),
    unityCaO: doublePrecision("unity_cao"),
    unitySrO: doublePrecision("unity_sro"),
    unityBaO: doublePrecision("unity_bao"),
    unityZnO: doublePrecision("unity_zno"),
    unityPbO: doublePrecision("unity_pbo"),
    unityB2O3: doublePrecision("unity_b2o3"),
    unityAl2O3: doublePrecision("unity_al2o3"),
    unitySiO2: doublePrecision("unity_sio2"),
  },
  (head) => [
    index("recipe_heads_in_order").on(head.nameKey, head.recipeId),
    index("recipe_heads_functional")
      .on(head.nameKey, head.recipeId)
      .where(sql`${head.approvedUntil} is not null and ${head.for} = 'functional'`),
    index("recipe_heads_by_use").on(head.use, head.nameKey, head.recipeId),
    index("recipe_heads_by_atmosphere").on(head.atmosphere, head.nameKey, head.recipeId),
    index("recipe_heads_by_standing").on(head.is, head.nameKey, head.recipeId),
    index("recipe_heads_by_owner").on(head.ownerId, head.nameKey, head.recipeId),
    index("recipe_heads_by_cones").on(
      head.coneLowPlace,
      head.coneHighPlace,
      head.nameKey,
      head.recipeId,
    ),
    index("recipe_heads_by_hottest").on(head.coneHighPlace, head.coneLowPlace),
    index("recipe_heads_of_melt").on(head.meltDigest),
    index("recipe_heads_by_surface").using("gin", head.surfaceKey.op("gin_trgm_ops")),
  ],
);

/**
 * The words that a recipe is found by, as a text search vector: its name (A), its surface (B), what
 * is told about it (C) and the notes on it (D), and the ids of its maker and its materials, whose
 * names are looked up when somebody asks. Kept like `recipe_heads`.
 */
export const recipeWords = pgTable(
  "recipe_words",
  {
    recipeId: uuid()
      .primaryKey()
      .references(() => recipes.id),
    words: textSearchVector().notNull(),
  },
  (recipe) => [index("recipe_words_index").using("gin", recipe.words)],
);

/**
 * Every word that names, surfaces and descriptions were ever written with, to look up slips of the
 * pen among. A word is told to nobody unless a recipe that they may know of has it.
 */
export const spellings = pgTable("spellings", { word: sortedText().primaryKey() }, (spelling) => [
  index("spellings_like").using("gin", spelling.word.op("gin_trgm_ops")),
  check("spellings_word_length", lengthIs(spelling.word, 4, 40)),
]);
