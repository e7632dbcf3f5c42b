import { and, eq, exists, inArray, or } from "drizzle-orm";
import { validate as isUuid } from "uuid";
import type { Db } from "./client.ts";
import { readableHead } from "./library-narrowing.ts";
import { foldName } from "./names.ts";
import { keyOfName } from "./people.ts";
import type { Reader } from "./recipes.ts";
import { materialNames, materials, people, recipeHeads } from "./schema/index.ts";

export type Powder = { id: string; slug: string; name: string };

/** The powder of that address, or else all that go by that name anywhere, just as it is written. */
export async function findPowders(db: Db, typed: string): Promise<Powder[]> {
  const { id, slug, name } = materials;
  const [addressed] = await db
    .select({ id, slug, name })
    .from(materials)
    .where(eq(slug, typed.trim()));
  if (addressed) return [addressed];
  const key = foldName(typed);
  const elsewhere = db
    .select({ id: materialNames.materialId })
    .from(materialNames)
    .where(eq(materialNames.nameKey, key));
  return db
    .select({ id, slug, name })
    .from(materials)
    .where(or(eq(materials.nameKey, key), inArray(id, elsewhere)))
    .orderBy(materials.nameKey, id);
}

/** Somebody by their id or name, where a recipe of theirs is among those that the reader may know of. */
export async function findMaker(
  db: Db,
  { typed, reader }: { typed: string; reader: Reader },
): Promise<{ id: string; name: string } | undefined> {
  const owned = db
    .select({ id: recipeHeads.recipeId })
    .from(recipeHeads)
    .where(and(eq(recipeHeads.ownerId, people.id), readableHead(reader)));
  const which = isUuid(typed) ? eq(people.id, typed) : eq(people.nameKey, keyOfName(typed));
  const [maker] = await db
    .select({ id: people.id, name: people.name })
    .from(people)
    .where(and(which, exists(owned)));
  return maker;
}
