import { and, eq, sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { keepCoauthors } from "./coauthors.ts";
import type { Draft } from "./drafts.ts";
import { appendEvent } from "./events.ts";
import { foldName, slugsFor } from "./names.ts";
import {
  type Author,
  type Offered,
  publication,
  recipeRow,
  revisionRows,
} from "./publishing-rows.ts";
import {
  chemistries,
  recipes,
  revisionLines,
  revisionStandings,
  revisions,
} from "./schema/index.ts";

export type NewRecipe =
  | { kind: "published"; id: string; slug: string; number: 1 }
  | { kind: "name-taken" };

/** A new recipe with its first revision, its lines, its chemistry and the event that says so. */
export async function publishRecipe(
  db: Db,
  { draft, ...offered }: Offered & { draft: Draft },
): Promise<NewRecipe> {
  const { forkedFrom, by, at } = offered;
  return db.transaction(async (tx) => {
    const id = uuidv7();
    const slug = await takeName(tx, { id, ...offered });
    if (!slug) return { kind: "name-taken" };
    const first = { recipeId: id, number: 1, basedOn: null, draft, by, at };
    const { digest } = await insertRevision(tx, first);
    await appendEvent(tx, { by, at }, publication(id, { digest, forkedFrom }));
    return { kind: "published", id, slug, number: 1 };
  });
}

export type NewRevision =
  | { kind: "published"; number: number; id: string }
  | { kind: "stale"; head: number };

/**
 * The next revision of a recipe, if its head is still the one that it was made from. Moving the head
 * is the lock and the check at once: of two at the same moment one finds it moved.
 *
 * @param coauthors ids of who wrote it beside `by`: whoever offered what is taken into it.
 */
export async function publishRevision(
  db: Db,
  {
    recipeId,
    basedOn,
    draft,
    coauthors = [],
    by,
    at,
  }: Author & {
    recipeId: string;
    basedOn: number;
    draft: Draft;
    coauthors?: readonly string[] | undefined;
  },
): Promise<NewRevision> {
  return db.transaction(async (tx) => {
    const [moved] = await tx
      .update(recipes)
      .set({ head: sql`${recipes.head} + 1` })
      .where(and(eq(recipes.id, recipeId), eq(recipes.head, basedOn)))
      .returning({ number: recipes.head });
    if (!moved) {
      const [recipe] = await tx
        .select({ head: recipes.head })
        .from(recipes)
        .where(eq(recipes.id, recipeId));
      return { kind: "stale", head: recipe?.head ?? 0 };
    }
    const { number } = moved;
    const revision = await insertRevision(tx, { recipeId, number, basedOn, draft, by, at });
    await keepCoauthors(tx, { revisionId: revision.id, by, coauthors });
    const detail = { number, digest: revision.digest };
    await appendEvent(
      tx,
      { by, at },
      { kind: "revised", subject: "recipe", subjectId: recipeId, detail },
    );
    return { kind: "published", number, id: revision.id };
  });
}

/** The address that the recipe got, or undefined where another has the name. */
async function takeName(
  tx: Db,
  { id, ...offered }: Offered & { id: string },
): Promise<string | undefined> {
  const [taken] = await tx
    .select({ id: recipes.id })
    .from(recipes)
    .where(eq(recipes.nameKey, foldName(offered.name)));
  if (taken) return undefined;
  for (const slug of slugsFor(offered.name)) {
    const [made] = await tx
      .insert(recipes)
      .values(recipeRow(offered, { id, slug }))
      .onConflictDoNothing()
      .returning({ slug: recipes.slug });
    if (made) return made.slug;
  }
  return undefined;
}

async function insertRevision(tx: Db, numbered: Parameters<typeof revisionRows>[0]) {
  const { revision, lines, chemistry, standing } = revisionRows(numbered);
  await tx.insert(revisions).values(revision);
  await tx.insert(revisionLines).values(lines);
  await tx.insert(chemistries).values(chemistry);
  await tx.insert(revisionStandings).values(standing);
  return revision;
}
