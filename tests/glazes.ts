import { Decimal } from "decimal.js";
import { findAnalyses } from "../src/db/analyses.ts";
import type { DraftLine } from "../src/db/drafts.ts";
import { addMaterial } from "../src/db/material-adding.ts";
import { publishRecipe } from "../src/db/publishing.ts";
import { findRecipe } from "../src/db/recipes.ts";
import { findRevision } from "../src/db/revisions.ts";
import type { Visibility } from "../src/db/schema/index.ts";
import { shelf } from "./reference/shelf.ts";
import type { TestStudio } from "./studio.ts";

const at = new Date("2026-02-01T10:00:00Z");

/** Lines of a clear glaze from powders that the studio gets with them. Call it once a studio. */
export async function stockShelf({ db, ids }: TestStudio): Promise<DraftLine[]> {
  const powders = [
    ["Potash feldspar", shelf.potashFeldspar, 40],
    ["Whiting", shelf.whiting, 20],
    ["Quartz", shelf.quartz, 25],
    ["Kaolin", shelf.kaolin, 15],
  ] as const;
  const lines: DraftLine[] = [];
  for (const [name, analysis, amount] of powders) {
    const given = { source: "demo analysis", measuredOn: null, formula: null, analysis };
    const about = { name, region: "", kind: "mineral", about: "", hazards: [] };
    const added = await addMaterial(db, { ...about, given, by: ids.manager, at });
    if (added.kind !== "added" || !added.analysis) throw new Error(`${name} was not added`);
    const pinned = await findAnalyses(db, [added.analysis.id]);
    lines.push({
      part: "base",
      material: { id: added.id, slug: added.slug, name },
      analysis: pinned.get(added.analysis.id) ?? null,
      amount: new Decimal(amount),
    });
  }
  return lines;
}

type Glaze = {
  name: string;
  lines: readonly DraftLine[];
  shownTo?: Visibility;
  by?: string;
};

/** A recipe of the author's, for cones 5 to 6 in oxidation. */
export async function publishGlaze({ db, ids }: TestStudio, { name, lines, ...glaze }: Glaze) {
  const { shownTo = "public", by = ids.author } = glaze;
  const draft = {
    lines,
    use: "functional",
    cones: { low: "5", high: "6" },
    atmosphere: "oxidation",
    surface: "glossy",
    about: "",
    message: "First",
  } as const;
  const published = await publishRecipe(db, { name, shownTo, draft, by, at });
  if (published.kind !== "published") throw new Error(`${name} was not published`);
  const { id, slug } = published;
  const recipe = await findRecipe(db, { slug, reader: { id: by, role: "manager" } });
  const revision = await findRevision(db, { recipeId: id, number: 1 });
  if (!recipe || !revision) throw new Error(`${name} is not there`);
  return { id, slug, draft, revision };
}
