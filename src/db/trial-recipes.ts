import { and, asc, desc, eq, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import type { Draft } from "./drafts.ts";
import { type Act, appendEvent } from "./events.ts";
import { type NewRecipe, publishRecipe } from "./publishing.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { recipes, trialRecipes, trials } from "./schema/index.ts";

/** A recipe that a point became. */
export type RecipeOfPoint = { n: number; slug: string; name: string };

/**
 * A point becomes a recipe of whoever asks, shown to the studio as its trial is. Nothing of what
 * was seen at the point counts for it: its own tiles have to be fired.
 */
export async function makeRecipeOfPoint(
  db: Db,
  {
    trialId,
    n,
    name,
    draft,
    by,
    at,
  }: Act & { by: string; trialId: string; n: number; name: string; draft: Draft },
): Promise<NewRecipe> {
  return db.transaction(async (tx) => {
    const made = await publishRecipe(tx, { name, shownTo: "studio", draft, by, at });
    if (made.kind !== "published") return made;
    await tx.insert(trialRecipes).values({ recipeId: made.id, trialId, n, by, at });
    const detail = { point: n, recipe: made.id };
    const happening = {
      kind: "trial point made a recipe",
      subject: "trial",
      subjectId: trialId,
      detail,
    } as const;
    await appendEvent(tx, { by, at }, happening);
    return made;
  });
}

/** The recipes that points of a trial became, as far as the reader may know of them. */
export const listRecipesOfTrial = (
  db: Db,
  { trialId, reader }: { trialId: string; reader: Reader },
): Promise<RecipeOfPoint[]> =>
  db
    .select({ n: trialRecipes.n, slug: recipes.slug, name: recipes.name })
    .from(trialRecipes)
    .innerJoin(recipes, eq(recipes.id, trialRecipes.recipeId))
    .where(and(eq(trialRecipes.trialId, trialId), readableBy(reader)))
    .orderBy(asc(trialRecipes.n), asc(recipes.nameKey));

/** The point of a trial that a recipe was, for people of the studio; null where it was none. */
export async function findTrialOf(
  db: Db,
  { recipeId, reader }: { recipeId: string; reader: Reader },
): Promise<{ id: string; name: string; n: number } | null> {
  if (!reader) return null;
  const [found] = await db
    .select({ id: trials.id, name: trials.name, n: trialRecipes.n })
    .from(trialRecipes)
    .innerJoin(trials, eq(trials.id, trialRecipes.trialId))
    .where(eq(trialRecipes.recipeId, recipeId));
  return found ?? null;
}

/** A trial that a recipe is a corner of, or the base. */
export type TrialOn = { id: string; name: string };

/** The trials that start from a recipe, newest first, for people of the studio; twenty at most. */
export async function listTrialsOn(
  db: Db,
  { slug, reader }: { slug: string; reader: Reader },
): Promise<TrialOn[]> {
  if (!reader) return [];
  const { id, name, at, question } = trials;
  return db
    .select({ id, name })
    .from(trials)
    .where(
      sql`exists (select 1 from jsonb_array_elements(${question} -> 'corners') corner where split_part(corner ->> 'recipe', '@', 1) = ${slug})`,
    )
    .orderBy(desc(at), desc(id))
    .limit(20);
}
