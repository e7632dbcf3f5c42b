import { and, asc, eq, inArray, ne, notExists, or, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { foldName, slugsFor } from "./names.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { families, familyRecipes, recipes } from "./schema/index.ts";

/** The most recipes in one family. */
export const mostInFamily = 60;

/** Recipes by a slug or a name that somebody typed, as far as the reader may know of them. */
export async function findNamedRecipes(
  db: Db,
  { typed, reader }: { typed: readonly string[]; reader: Reader },
): Promise<Map<string, { id: string; slug: string }>> {
  if (typed.length === 0) return new Map();
  const rows = await db
    .select({ id: recipes.id, slug: recipes.slug, nameKey: recipes.nameKey })
    .from(recipes)
    .where(
      and(
        or(inArray(recipes.slug, [...typed]), inArray(recipes.nameKey, typed.map(foldName))),
        readableBy(reader),
      ),
    );
  return new Map(
    typed.flatMap((word) => {
      const found =
        rows.find(({ slug }) => slug === word) ??
        rows.find(({ nameKey }) => nameKey === foldName(word));
      return found ? [[word, { id: found.id, slug: found.slug }] as const] : [];
    }),
  );
}

export type AddedFamily = { kind: "added"; slug: string } | { kind: "name-taken"; slug: string };

type Given = Act & { by: string; name: string; intro: string; recipeIds: readonly string[] };

/** Writes recipes up together. They were found through the scope of whoever does it. */
export async function addFamily(
  db: Db,
  { name, intro, recipeIds, by, at }: Given,
): Promise<AddedFamily> {
  return db.transaction(async (tx) => {
    const nameKey = foldName(name);
    const taken = await findByName(tx, nameKey);
    if (taken) return { kind: "name-taken", slug: taken };
    const id = uuidv7();
    let made: string | undefined;
    for (const slug of slugsFor(name)) {
      const [row] = await tx
        .insert(families)
        .values({ id, slug, name, nameKey, intro, addedBy: by, addedAt: at })
        .onConflictDoNothing()
        .returning({ slug: families.slug });
      made = row?.slug;
      if (made) break;
    }
    if (!made) return { kind: "name-taken", slug: (await findByName(tx, nameKey)) ?? "" };
    await keepRecipes(tx, id, recipeIds);
    const detail = { recipes: recipeIds.length };
    const happening = { kind: "family added", subject: "family", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", slug: made };
  });
}

export type ChangedFamily = { kind: "changed" } | { kind: "name-taken"; slug: string };

/**
 * Says anew what a family is. Its address stays. Recipes that whoever does it may not know of were
 * not theirs to take out: they stay, behind the others.
 */
export async function changeFamily(
  db: Db,
  given: Given & { familyId: string; reader: Reader },
): Promise<ChangedFamily> {
  const { familyId, name, intro, recipeIds, reader, by, at } = given;
  return db.transaction(async (tx) => {
    // Two that take the same name at once are told of it one after the other.
    await tx.execute(sql`lock table ${families} in share row exclusive mode`);
    const nameKey = foldName(name);
    const others = alias(families, "others");
    const [moved] = await tx
      .update(families)
      .set({ name, nameKey, intro })
      .where(
        and(
          eq(families.id, familyId),
          notExists(
            tx
              .select({ id: others.id })
              .from(others)
              .where(and(eq(others.nameKey, nameKey), ne(others.id, familyId))),
          ),
        ),
      )
      .returning({ id: families.id });
    if (!moved) return { kind: "name-taken", slug: (await findByName(tx, nameKey)) ?? "" };
    const unseen = await findUnseen(tx, familyId, reader);
    await tx.delete(familyRecipes).where(eq(familyRecipes.familyId, familyId));
    const all = [...new Set([...recipeIds, ...unseen])];
    await keepRecipes(tx, familyId, all);
    const detail = { recipes: all.length };
    const happening = { kind: "family changed", subject: "family", subjectId: familyId, detail };
    await appendEvent(tx, { by, at }, { ...happening, subject: "family" });
    return { kind: "changed" };
  });
}

async function findUnseen(tx: Db, familyId: string, reader: Reader): Promise<string[]> {
  const all = await tx
    .select({ id: familyRecipes.recipeId })
    .from(familyRecipes)
    .where(eq(familyRecipes.familyId, familyId))
    .orderBy(asc(familyRecipes.position));
  const ids = all.map(({ id }) => id);
  if (ids.length === 0) return [];
  const seen = await tx
    .select({ id: recipes.id })
    .from(recipes)
    .where(and(inArray(recipes.id, ids), readableBy(reader)));
  return ids.filter((id) => !seen.some((recipe) => recipe.id === id));
}

async function keepRecipes(tx: Db, familyId: string, recipeIds: readonly string[]): Promise<void> {
  if (recipeIds.length === 0) return;
  const rows = recipeIds.map((recipeId, position) => ({ familyId, position, recipeId }));
  await tx.insert(familyRecipes).values(rows);
}

async function findByName(tx: Db, nameKey: string): Promise<string | undefined> {
  const [found] = await tx
    .select({ slug: families.slug })
    .from(families)
    .where(eq(families.nameKey, nameKey));
  return found?.slug;
}
