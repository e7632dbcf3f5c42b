import { and, asc, count, eq } from "drizzle-orm";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { foldName } from "./names.ts";
import { people, savedSearches } from "./schema/index.ts";

export type SavedSearch = { id: string; name: string; query: string; savedAt: Date };

/** How many anybody keeps. */
export const mostSaved = 50;

const told = {
  id: savedSearches.id,
  name: savedSearches.name,
  query: savedSearches.query,
  savedAt: savedSearches.savedAt,
};

/** Somebody's own searches by name. */
export const listSavedSearches = (
  db: Db,
  { personId }: { personId: string },
): Promise<SavedSearch[]> =>
  db
    .select(told)
    .from(savedSearches)
    .where(eq(savedSearches.personId, personId))
    .orderBy(asc(savedSearches.nameKey));

export type Saving =
  | { kind: "saved"; search: SavedSearch }
  | { kind: "name-taken" }
  | { kind: "enough" };

/**
 * Keeps a search under a name for whoever made it. It is theirs alone and no part of the studio's
 * record. Of two at the same moment the second waits, so that nobody comes to keep more than they may.
 */
export async function saveSearch(
  db: Db,
  { name, query, by, at }: { name: string; query: string; by: string; at: Date },
): Promise<Saving> {
  return db.transaction(async (tx) => {
    await tx.select({ id: people.id }).from(people).where(eq(people.id, by)).for("no key update");
    const [kept] = await tx
      .select({ searches: count() })
      .from(savedSearches)
      .where(eq(savedSearches.personId, by));
    if ((kept?.searches ?? 0) >= mostSaved) return { kind: "enough" };
    const [search] = await tx
      .insert(savedSearches)
      .values({ id: uuidv7(), personId: by, name, nameKey: foldName(name), query, savedAt: at })
      .onConflictDoNothing()
      .returning(told);
    return search ? { kind: "saved", search } : { kind: "name-taken" };
  });
}

/** @returns whether it was there and was theirs. */
export async function forgetSearch(
  db: Db,
  { id, personId }: { id: string; personId: string },
): Promise<boolean> {
  if (!isUuid(id)) return false;
  const gone = await db
    .delete(savedSearches)
    .where(and(eq(savedSearches.id, id), eq(savedSearches.personId, personId)))
    .returning({ id: savedSearches.id });
  return gone.length > 0;
}
