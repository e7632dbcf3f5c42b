import { eq, inArray } from "drizzle-orm";
import type { Db } from "./client.ts";
import { families, handoutRevisions, handouts, recipes, revisions } from "./schema/index.ts";

/** What handouts are called by: their family, else their recipe. */
export async function findHandouts(db: Db, ids: string[]): Promise<{ id: string; name: string }[]> {
  const rows = await db
    .selectDistinctOn([handouts.id], {
      id: handouts.id,
      family: families.name,
      recipe: recipes.name,
    })
    .from(handouts)
    .innerJoin(handoutRevisions, eq(handoutRevisions.handoutId, handouts.id))
    .innerJoin(revisions, eq(revisions.id, handoutRevisions.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(families, eq(families.id, handouts.familyId))
    .where(inArray(handouts.id, ids))
    .orderBy(handouts.id, handoutRevisions.position);
  return rows.map(({ id, family, recipe }) => ({ id, name: family ?? recipe }));
}
