import { z } from "zod";
import type { MaterialInFile, RecipeInFile } from "../db/import-types.ts";
import { analysisInFile } from "../wire/analysis-body.ts";
import { line, text } from "../wire/fields.ts";
import { revisionBody } from "../wire/recipe-body.ts";
import { materialFields, materialOf } from "./material-body.ts";

/** The most entries of each kind that one file may bring. */
export const mostRecipes = 2000;
export const mostMaterials = 500;

/** Room is left for a line that says where the recipe comes from. */
const longestAbout = 7400;

const nameElsewhere = z.strictObject({
  name: line(80),
  region: line(60),
  caution: line(500, 0).default(""),
});

/** A material as POST /materials takes it, with what it is called elsewhere and further analyses. */
export const materialInFile = z
  .strictObject({
    ...materialFields,
    names: z.array(nameElsewhere).max(40).default([]),
    analyses: z.array(analysisInFile).max(50).default([]),
  })
  .transform(({ names, analyses, ...typed }, context): Omit<MaterialInFile, "place"> => {
    const { given, ...material } = materialOf(typed, context);
    const own = given ? [{ place: "", given }] : [];
    const further = analyses.map((each, index) => ({ place: `analyses.${index}`, given: each }));
    return { ...material, names, analyses: [...own, ...further] };
  });

const { use, cones, atmosphere, surface, lines } = revisionBody.shape;

/** A recipe with one revision; each line names its material in words. */
export const recipeInFile = z
  .strictObject({
    name: line(80),
    maker: line(80, 0).default(""),
    source: line(300, 0).default(""),
    revision: z.strictObject({
      lines,
      use,
      cones,
      atmosphere,
      surface,
      about: text(longestAbout, 0).default(""),
    }),
  })
  .transform(({ name, maker, source, revision }): Omit<RecipeInFile, "place"> => {
    const placed = revision.lines.map((each, index) => ({
      ...each,
      place: `revision.lines.${index}`,
    }));
    return { name, maker, source, ...revision, lines: placed, quotes: [] };
  });

/** The frame of our own JSON; what stands in it is read entry by entry, so that each has its word. */
export const importFrame = z.strictObject({
  format: z.literal("common-bucket/import", { error: "“common-bucket/import”, word for word." }),
  version: z.literal(1, { error: "Only version 1 is known here." }),
  materials: z.array(z.unknown()).max(mostMaterials).default([]),
  recipes: z.array(z.unknown()).max(mostRecipes).default([]),
});

/** The whole file, for the description of it. */
export const importFile = importFrame.extend({
  materials: z.array(materialInFile).max(mostMaterials).default([]),
  recipes: z.array(recipeInFile).max(mostRecipes).default([]),
});
