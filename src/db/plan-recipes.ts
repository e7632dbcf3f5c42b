import { and, asc, desc, eq, inArray, notInArray, type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { type FoundLine, findRevisions } from "./revisions.ts";
import { recipes, revisions, withdrawals } from "./schema/index.ts";

/** A recipe by the lines of its head, as a shelf is planned for it. */
export type PlanRecipe = { slug: string; name: string; lines: FoundLine[] };

/** Recipes that the reader may know of, by their slugs; others have no entry. */
export async function findPlanRecipes(
  db: Db,
  { slugs, reader }: { slugs: readonly string[]; reader: Reader },
): Promise<Map<string, PlanRecipe>> {
  if (slugs.length === 0) return new Map();
  const found = await readHeads(
    db,
    and(inArray(recipes.slug, [...new Set(slugs)]), readableBy(reader)),
    slugs.length,
  );
  return new Map(found.map((recipe) => [recipe.slug, recipe]));
}

/** The first recipes by name that the reader may know of and nobody took back, with their heads. */
export async function listPlanRecipes(
  db: Db,
  { reader, limit }: { reader: Reader; limit: number },
): Promise<PlanRecipe[]> {
  return readHeads(db, standing(db, reader), limit);
}

/** What the same recipes are called, for somebody to choose from, and how many there are in all. */
export async function listPlanNames(
  db: Db,
  { reader, limit }: { reader: Reader; limit: number },
): Promise<{ recipes: { slug: string; name: string }[]; count: number }> {
  const rows = await db
    .select({ slug: recipes.slug, name: recipes.name })
    .from(recipes)
    .where(standing(db, reader))
    .orderBy(asc(recipes.nameKey), asc(recipes.id))
    .limit(limit);
  const count = rows.length < limit ? rows.length : await db.$count(recipes, standing(db, reader));
  return { recipes: rows, count };
}

/** Not withdrawn: the newest word on each recipe counts. */
function standing(db: Db, reader: Reader): SQL | undefined {
  const newest = db
    .selectDistinctOn([withdrawals.recipeId], {
      recipeId: withdrawals.recipeId,
      withdrawn: withdrawals.withdrawn,
    })
    .from(withdrawals)
    .orderBy(withdrawals.recipeId, desc(withdrawals.id))
    .as("newest");
  const gone = db.select({ id: newest.recipeId }).from(newest).where(sql`${newest.withdrawn}`);
  return and(readableBy(reader), notInArray(recipes.id, gone));
}

async function readHeads(db: Db, which: SQL | undefined, limit: number): Promise<PlanRecipe[]> {
  const rows = await db
    .select({ slug: recipes.slug, name: recipes.name, revisionId: revisions.id })
    .from(recipes)
    .innerJoin(
      revisions,
      and(eq(revisions.recipeId, recipes.id), eq(revisions.number, recipes.head)),
    )
    .where(which)
    .orderBy(asc(recipes.nameKey), asc(recipes.id))
    .limit(limit);
  const heads = await findRevisions(
    db,
    rows.map(({ revisionId }) => revisionId),
  );
  const lines = new Map(heads.map((head) => [head.id, head.lines]));
  return rows.map(({ slug, name, revisionId }) => ({
    slug,
    name,
    lines: lines.get(revisionId) ?? [],
  }));
}
