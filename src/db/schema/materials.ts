import { sql } from "drizzle-orm";
import {
  boolean,
  check,
  date,
  foreignKey,
  index,
  pgTable,
  primaryKey,
  text,
  unique,
  uuid,
} from "drizzle-orm/pg-core";
import { decimal, id, isDigest, lengthIs, moment, oneOf, sortedText } from "./columns.ts";
import { people } from "./people.ts";

/** A powder, or a ready-made product, that lines of recipes refer to. */
export const materials = pgTable(
  "materials",
  {
    id: id(),
    slug: text().notNull().unique("materials_slug_unique"),
    name: text().notNull(),
    nameKey: sortedText().notNull().unique("materials_name_unique"),
    region: text().notNull(),
    kind: text().notNull(),
    about: text().notNull(),
    hazards: text().array().notNull(),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (material) => [
    check("materials_slug_shape", sql`${material.slug} ~ '^[a-z0-9]+(-[a-z0-9]+)*$'`),
    check("materials_slug_length", lengthIs(material.slug, 1, 80)),
    check("materials_name_length", lengthIs(material.name, 1, 80)),
    check("materials_region_length", lengthIs(material.region, 0, 60)),
    check("materials_kind_length", lengthIs(material.kind, 1, 40)),
    check("materials_about_length", lengthIs(material.about, 0, 4000)),
    check("materials_hazards_few", sql`cardinality(${material.hazards}) <= 20`),
  ],
);

/** What the same powder is called elsewhere, with the look-alike to beware of. */
export const materialNames = pgTable(
  "material_names",
  {
    id: id(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    name: text().notNull(),
    nameKey: sortedText().notNull(),
    region: text().notNull(),
    caution: text().notNull(),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (name) => [
    index("material_names_of_material").on(name.materialId),
    index("material_names_by_key").on(name.nameKey),
    check("material_names_name_length", lengthIs(name.name, 1, 80)),
    check("material_names_region_length", lengthIs(name.region, 1, 60)),
    check("material_names_caution_length", lengthIs(name.caution, 0, 500)),
  ],
);

export const bases = ["asReceived", "calcined"] as const;

/** A dated analysis of a powder with its source. Append-only: a better one is another row. */
export const analyses = pgTable(
  "analyses",
  {
    id: id(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    source: text().notNull(),
    measuredOn: date({ mode: "string" }),
    basis: text({ enum: bases }).notNull(),
    formula: text(),
    ideal: boolean().notNull(),
    lossPercent: decimal({ precision: 9, scale: 6 }),
    lossPlusMinus: decimal({ precision: 9, scale: 6 }),
    digest: text().notNull(),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (analysis) => [
    unique("analyses_of_one_material").on(analysis.materialId, analysis.id),
    check("analyses_source_length", lengthIs(analysis.source, 1, 300)),
    check("analyses_formula_length", lengthIs(analysis.formula, 1, 200)),
    check("analyses_basis_known", oneOf(analysis.basis, bases)),
    // Postgres sorts NaN above every number, so the upper bounds keep it out.
    check("analyses_loss_possible", sql`${analysis.lossPercent} between -50 and 100`),
    check("analyses_loss_doubt_possible", sql`${analysis.lossPlusMinus} between 0 and 100`),
    check("analyses_digest_is_digest", isDigest(analysis.digest)),
  ],
);

/** One oxide of an analysis, percent of the powder on the analysis's basis. */
export const analysisOxides = pgTable(
  "analysis_oxides",
  {
    analysisId: uuid()
      .notNull()
      .references(() => analyses.id),
    oxide: text().notNull(),
    percent: decimal({ precision: 9, scale: 6 }).notNull(),
    plusMinus: decimal({ precision: 9, scale: 6 }),
  },
  (oxide) => [
    primaryKey({ columns: [oxide.analysisId, oxide.oxide] }),
    check("analysis_oxides_oxide_shape", sql`${oxide.oxide} ~ '^[A-Z][A-Za-z0-9]{1,9}$'`),
    // Oxygen is taken up by some powders: silicon carbide gives more than its weight of silica.
    check("analysis_oxides_percent_possible", sql`${oxide.percent} between 0 and 400`),
    check("analysis_oxides_doubt_possible", sql`${oxide.plusMinus} between 0 and 100`),
  ],
);

/** Which analysis new revisions pin, from when, by whose word. Append-only: the newest counts. */
export const analysesInUse = pgTable(
  "analyses_in_use",
  {
    id: id(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    analysisId: uuid().notNull(),
    since: moment().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    why: text().notNull(),
  },
  (use) => [
    index("analyses_in_use_of_material").on(use.materialId, use.id),
    foreignKey({
      columns: [use.materialId, use.analysisId],
      foreignColumns: [analyses.materialId, analyses.id],
      name: "analyses_in_use_of_this_material",
    }),
    check("analyses_in_use_why_length", lengthIs(use.why, 0, 1000)),
  ],
);

/** "No longer sold", or sold again. Append-only: the newest counts. */
export const discontinuations = pgTable(
  "discontinuations",
  {
    id: id(),
    materialId: uuid()
      .notNull()
      .references(() => materials.id),
    stillSold: boolean().notNull(),
    since: date({ mode: "string" }).notNull(),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (change) => [
    index("discontinuations_of_material").on(change.materialId, change.id),
    check("discontinuations_why_length", lengthIs(change.why, 1, 1000)),
  ],
);
