import { and, desc, eq, inArray, or, type Placeholder, type SQL, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import {
  people,
  type Role,
  recipes,
  revisions,
  type Visibility,
  withdrawals,
} from "./schema/index.ts";
import { unsettleSameGlaze } from "./unsettling.ts";

export type Reader = { id: string; role: Role } | undefined;

/** Whoever was handed some recipes, by their ids: they read these, and else what visitors are shown. */
export type Holder = { holds: readonly string[]; showsPublic: boolean };

/** Who reads: a person of the studio, a visitor, or whoever holds a handout. */
export type Scope = Reader | Holder;

/** The person who reads, where it is one of the studio. */
export const personIn = (scope: Scope): Reader => (scope && "holds" in scope ? undefined : scope);

/** What a person may know of: what is shown to everybody, to the studio, and what is their own. */
export const readableBy = (reader: Scope | { id: Placeholder; role: Role }): SQL | undefined => {
  if (!reader) return eq(recipes.shownTo, "public");
  if ("holds" in reader) {
    const held = inArray(recipes.id, [...reader.holds]);
    return reader.showsPublic ? or(eq(recipes.shownTo, "public"), held) : held;
  }
  if (reader.role === "manager") return undefined;
  return or(sql`${recipes.shownTo} <> 'private'`, eq(recipes.ownerId, reader.id));
};

const mayRevise = (recipe: { ownerId: string }, reader: Reader): boolean =>
  reader !== undefined && (reader.role === "manager" || recipe.ownerId === reader.id);

export type Withdrawal = { why: string; at: Date; by: string };

export type FoundRecipe = {
  id: string;
  slug: string;
  name: string;
  owner: { id: string; name: string };
  head: number;
  shownTo: Visibility;
  addedAt: Date;
  forkedFrom: { slug: string; name: string; number: number } | null;
  withdrawn: Withdrawal | null;
  mayRevise: boolean;
};

/** A recipe that the reader may know of, by its address. */
export async function findRecipe(
  db: Db,
  { slug, reader }: { slug: string; reader: Reader },
): Promise<FoundRecipe | undefined> {
  const [row] = await db
    .select({
      id: recipes.id,
      slug: recipes.slug,
      name: recipes.name,
      ownerId: recipes.ownerId,
      ownerName: people.name,
      head: recipes.head,
      shownTo: recipes.shownTo,
      addedAt: recipes.addedAt,
      forkedFrom: recipes.forkedFrom,
    })
    .from(recipes)
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(and(eq(recipes.slug, slug), readableBy(reader)));
  if (!row) return undefined;
  const { ownerId, ownerName, forkedFrom, ...recipe } = row;
  return {
    ...recipe,
    owner: { id: ownerId, name: ownerName },
    forkedFrom: forkedFrom === null ? null : await findOrigin(db, forkedFrom, reader),
    withdrawn: await findWithdrawal(db, recipe.id),
    mayRevise: mayRevise({ ownerId }, reader),
  };
}

/** Where a fork came from, or null where the reader may not know of it. */
async function findOrigin(db: Db, revisionId: string, reader: Reader) {
  const [origin] = await db
    .select({ slug: recipes.slug, name: recipes.name, number: revisions.number })
    .from(revisions)
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(eq(revisions.id, revisionId), readableBy(reader)));
  return origin ?? null;
}

/** The forks of any revision of a recipe, as far as the reader may know of them. */
export function listForks(db: Db, { recipeId, reader }: { recipeId: string; reader: Reader }) {
  const origins = alias(revisions, "origins");
  return db
    .select({
      slug: recipes.slug,
      name: recipes.name,
      owner: { name: people.name },
      number: origins.number,
    })
    .from(recipes)
    .innerJoin(origins, eq(origins.id, recipes.forkedFrom))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(and(eq(origins.recipeId, recipeId), readableBy(reader)))
    .orderBy(recipes.nameKey, recipes.id);
}

async function findWithdrawal(db: Db, recipeId: string): Promise<Withdrawal | null> {
  const [last] = await db
    .select({
      withdrawn: withdrawals.withdrawn,
      why: withdrawals.why,
      at: withdrawals.at,
      by: people.name,
    })
    .from(withdrawals)
    .innerJoin(people, eq(people.id, withdrawals.by))
    .where(eq(withdrawals.recipeId, recipeId))
    .orderBy(desc(withdrawals.id))
    .limit(1);
  return last?.withdrawn ? { why: last.why, at: last.at, by: last.by } : null;
}

/**
 * Takes a recipe back, or puts it forward again. Whoever may revise it may do this. Where it is
 * withdrawn for safety, every recipe that is the same glaze needs another look with it.
 */
export async function setWithdrawn(
  db: Db,
  {
    recipeId,
    withdrawn,
    forSafety,
    why,
    by,
    at,
  }: Act & { by: string; recipeId: string; withdrawn: boolean; forSafety: boolean; why: string },
): Promise<void> {
  await db.transaction(async (tx) => {
    const id = uuidv7();
    await tx.insert(withdrawals).values({ id, recipeId, withdrawn, forSafety, why, by, at });
    await unsettleSameGlaze(tx, recipeId);
    const kind = withdrawn ? "withdrawn" : "put forward again";
    const detail = { forSafety };
    await appendEvent(tx, { by, at }, { kind, subject: "recipe", subjectId: recipeId, detail });
  });
}

/** Says who may read a recipe from now on. */
export async function setShownTo(
  db: Db,
  { recipeId, shownTo, by, at }: Act & { recipeId: string; shownTo: Visibility },
): Promise<void> {
  await db.transaction(async (tx) => {
    await tx.update(recipes).set({ shownTo }).where(eq(recipes.id, recipeId));
    await unsettleSameGlaze(tx, recipeId);
    await appendEvent(
      tx,
      { by, at },
      { kind: "shown to", subject: "recipe", subjectId: recipeId, detail: { shownTo } },
    );
  });
}
