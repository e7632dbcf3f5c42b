import { and, asc, eq, gt, inArray } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { type FoundRevision, findRevisions } from "./revisions.ts";
import { families, familyRecipes, people, recipes, revisions } from "./schema/index.ts";
import type { StandingIs } from "./standing.ts";
import { findStandings } from "./standings.ts";

/** A recipe in its family, by its head. */
export type FamilyRecipe = {
  id: string;
  slug: string;
  name: string;
  owner: { id: string; name: string };
  standing: { is: StandingIs; for: Use | null };
  revision: FoundRevision;
};

/** A family as the list tells it; `leftOut` are recipes that the reader may not know of. */
export type FoundFamily = {
  id: string;
  slug: string;
  name: string;
  intro: string;
  addedBy: { id: string; name: string };
  addedAt: Date;
  recipes: { slug: string; name: string }[];
  leftOut: number;
};

export type WholeFamily = Omit<FoundFamily, "recipes"> & { recipes: FamilyRecipe[] };

/** Whether the reader may change a family: who made it, or a manager. */
export const mayChangeFamily = (family: { addedBy: { id: string } }, reader: Reader): boolean =>
  reader !== undefined && (reader.role === "manager" || reader.id === family.addedBy.id);

const columns = {
  id: families.id,
  slug: families.slug,
  name: families.name,
  intro: families.intro,
  addedBy: { id: people.id, name: people.name },
  addedAt: families.addedAt,
};

/** A page of the studio's families in the order of names, each with the recipes that may be told. */
export async function listFamilies(
  db: Db,
  { reader, after, limit }: { reader: Reader; after?: string | undefined; limit: number },
): Promise<{ families: FoundFamily[]; next: string | null }> {
  const rows = await db
    .select({ ...columns, nameKey: families.nameKey })
    .from(families)
    .innerJoin(people, eq(people.id, families.addedBy))
    .where(after === undefined ? undefined : gt(families.nameKey, after))
    .orderBy(asc(families.nameKey))
    .limit(limit + 1);
  const page = rows.slice(0, limit);
  const places = await readPlaces(
    db,
    page.map(({ id }) => id),
    reader,
  );
  return {
    families: page.map(({ nameKey: _, ...family }) => {
      const { told, leftOut } = placesOf(places, family.id);
      const named = told.map(({ slug, name }) => ({ slug, name }));
      return { ...family, recipes: named, leftOut };
    }),
    next: rows.length > limit ? (page.at(-1)?.nameKey ?? null) : null,
  };
}

/** A family by its address with its recipes as far as the reader may know of them. */
export async function findFamily(
  db: Db,
  { slug, reader, now }: { slug: string; reader: Reader; now: Date },
): Promise<WholeFamily | undefined> {
  if (!/^[a-z0-9-]{1,80}$/.test(slug)) return undefined;
  const [family] = await db
    .select(columns)
    .from(families)
    .innerJoin(people, eq(people.id, families.addedBy))
    .where(eq(families.slug, slug));
  if (!family) return undefined;
  const { told, leftOut } = placesOf(await readPlaces(db, [family.id], reader), family.id);
  const revisionIds = told.map(({ revisionId }) => revisionId);
  const heads = new Map((await findRevisions(db, revisionIds)).map((head) => [head.id, head]));
  const standings = await findStandings(db, { revisionIds, now });
  return {
    ...family,
    leftOut,
    recipes: told.flatMap(({ id, slug: at, name, owner, revisionId }) => {
      const revision = heads.get(revisionId);
      const standing = standings.get(revisionId);
      if (!revision) return [];
      const { is = "draft", for: use = null } = standing ?? {};
      return [{ id, slug: at, name, owner, standing: { is, for: use ?? null }, revision }];
    }),
  };
}

type Place = { familyId: string; recipeId: string; told: Told | undefined };
type Told = {
  id: string;
  slug: string;
  name: string;
  owner: { id: string; name: string };
  revisionId: string;
};

/** The places of families in their order, each told where the reader may know of its recipe. */
async function readPlaces(db: Db, ids: readonly string[], reader: Reader): Promise<Place[]> {
  if (ids.length === 0) return [];
  const places = await db
    .select({ familyId: familyRecipes.familyId, recipeId: familyRecipes.recipeId })
    .from(familyRecipes)
    .where(inArray(familyRecipes.familyId, [...ids]))
    .orderBy(asc(familyRecipes.familyId), asc(familyRecipes.position));
  if (places.length === 0) return [];
  const told = await db
    .select({
      id: recipes.id,
      slug: recipes.slug,
      name: recipes.name,
      owner: { id: people.id, name: people.name },
      revisionId: revisions.id,
    })
    .from(recipes)
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .innerJoin(
      revisions,
      and(eq(revisions.recipeId, recipes.id), eq(revisions.number, recipes.head)),
    )
    .where(
      and(
        inArray(recipes.id, [...new Set(places.map((place) => place.recipeId))]),
        readableBy(reader),
      ),
    );
  const byId = new Map(told.map((recipe) => [recipe.id, recipe]));
  return places.map((place) => ({ ...place, told: byId.get(place.recipeId) }));
}

function placesOf(places: readonly Place[], familyId: string): { told: Told[]; leftOut: number } {
  const own = places.filter((place) => place.familyId === familyId);
  const told = own.flatMap((place) => place.told ?? []);
  return { told, leftOut: own.length - told.length };
}
