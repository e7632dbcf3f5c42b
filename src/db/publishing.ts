import { and, eq, sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { cones } from "../chem/cones.ts";
import { storeChemistry } from "./chemistries.ts";
import type { Db } from "./client.ts";
import { type Draft, meltDigest, revisionDigest } from "./drafts.ts";
import { appendEvent } from "./events.ts";
import { foldName, slugsFor } from "./names.ts";
import { recipes, revisionLines, revisions, type Visibility } from "./schema/index.ts";

type Author = { by: string; at: Date };

export type NewRecipe =
  | { kind: "published"; id: string; slug: string; number: 1 }
  | { kind: "name-taken" };

/** A new recipe with its first revision, its lines, its chemistry and the event that says so. */
export async function publishRecipe(
  db: Db,
  params: Author & {
    name: string;
    shownTo: Visibility;
    forkedFrom?: string | undefined;
    draft: Draft;
  },
): Promise<NewRecipe> {
  const { name, shownTo, forkedFrom, draft, by, at } = params;
  return db.transaction(async (tx) => {
    const id = uuidv7();
    const slug = await takeName(tx, { id, name, shownTo, forkedFrom, by, at });
    if (!slug) return { kind: "name-taken" };
    const revision = await insertRevision(tx, {
      recipeId: id,
      number: 1,
      basedOn: null,
      draft,
      by,
      at,
    });
    const detail = { number: 1, digest: revision.digest, ...(forkedFrom && { forkedFrom }) };
    const kind = forkedFrom ? "forked" : "published";
    await appendEvent(tx, { by, at }, { kind, subject: "recipe", subjectId: id, detail });
    return { kind: "published", id, slug, number: 1 };
  });
}

export type NewRevision = { kind: "published"; number: number } | { kind: "stale"; head: number };

/**
 * The next revision of a recipe, if its head is still the one that it was made from. Moving the head
 * is the lock and the check at once: of two at the same moment one finds it moved.
 */
export async function publishRevision(
  db: Db,
  {
    recipeId,
    basedOn,
    draft,
    by,
    at,
  }: Author & { recipeId: string; basedOn: number; draft: Draft },
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
    const detail = { number, digest: revision.digest };
    await appendEvent(
      tx,
      { by, at },
      { kind: "revised", subject: "recipe", subjectId: recipeId, detail },
    );
    return { kind: "published", number };
  });
}

type Naming = Author & {
  id: string;
  name: string;
  shownTo: Visibility;
  forkedFrom?: string | undefined;
};

/** The address that the recipe got, or undefined where another has the name. */
async function takeName(
  tx: Db,
  { id, name, shownTo, forkedFrom, by, at }: Naming,
): Promise<string | undefined> {
  const nameKey = foldName(name);
  const [taken] = await tx
    .select({ id: recipes.id })
    .from(recipes)
    .where(eq(recipes.nameKey, nameKey));
  if (taken) return undefined;
  for (const slug of slugsFor(name)) {
    const row = {
      id,
      slug,
      name,
      nameKey,
      ownerId: by,
      head: 1,
      shownTo,
      forkedFrom: forkedFrom ?? null,
      addedAt: at,
    };
    const [made] = await tx
      .insert(recipes)
      .values(row)
      .onConflictDoNothing()
      .returning({ slug: recipes.slug });
    if (made) return made.slug;
  }
  return undefined;
}

type Numbered = Author & { recipeId: string; number: number; basedOn: number | null; draft: Draft };

async function insertRevision(tx: Db, { recipeId, number, basedOn, draft, by, at }: Numbered) {
  const id = uuidv7();
  const melt = meltDigest(draft.lines);
  const digest = revisionDigest(melt, draft);
  await tx.insert(revisions).values({
    id,
    recipeId,
    number,
    basedOn,
    authorId: by,
    use: draft.use,
    coneLow: draft.cones.low,
    coneHigh: draft.cones.high,
    coneLowPlace: cones.indexOf(draft.cones.low),
    coneHighPlace: cones.indexOf(draft.cones.high),
    atmosphere: draft.atmosphere,
    surface: draft.surface,
    about: draft.about,
    message: draft.message,
    meltDigest: melt,
    digest,
    publishedAt: at,
  });
  await tx.insert(revisionLines).values(
    draft.lines.map(({ part, material, analysis, amount }, position) => ({
      revisionId: id,
      position,
      part,
      materialId: material.id,
      analysisId: analysis?.id ?? null,
      amount,
    })),
  );
  await storeChemistry(tx, { revisionId: id, draft });
  return { id, digest };
}
