import { sql } from "drizzle-orm";
import { check, index, pgTable, primaryKey, smallint, text, uuid } from "drizzle-orm/pg-core";
import { id, lengthIs, moment, sortedText } from "./columns.ts";
import { people } from "./people.ts";
import { recipes } from "./recipes.ts";

/** Recipes that are written up together, from one shelf. */
export const families = pgTable(
  "families",
  {
    id: id(),
    slug: text().notNull().unique("families_slug_unique"),
    name: text().notNull(),
    nameKey: sortedText().notNull().unique("families_name_unique"),
    intro: text().notNull(),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (family) => [
    check("families_slug_shape", sql`${family.slug} ~ '^[a-z0-9]+(-[a-z0-9]+)*$'`),
    check("families_slug_length", lengthIs(family.slug, 1, 80)),
    check("families_name_length", lengthIs(family.name, 1, 80)),
    check("families_intro_length", lengthIs(family.intro, 0, 8000)),
  ],
);

/** A recipe's place in a family. */
export const familyRecipes = pgTable(
  "family_recipes",
  {
    familyId: uuid()
      .notNull()
      .references(() => families.id),
    position: smallint().notNull(),
    recipeId: uuid()
      .notNull()
      .references(() => recipes.id),
  },
  (member) => [
    primaryKey({ columns: [member.familyId, member.position] }),
    index("family_recipes_of_recipe").on(member.recipeId),
    check("family_recipes_position_counts", sql`${member.position} between 0 and 199`),
  ],
);
