import { and, asc, eq, inArray, isNull } from "drizzle-orm";
import type { Db } from "./client.ts";
import { latestWords } from "./note-words.ts";
import {
  noteClosings,
  notes,
  noteTexts,
  people,
  recipes,
  revisions,
  type Visibility,
} from "./schema/index.ts";

export type OpenObjection = {
  id: string;
  digest: string;
  recipeId: string;
  slug: string;
  name: string;
  /** One on somebody's private copy is for that copy alone: nobody else could read or answer it. */
  shownTo: Visibility;
  number: number;
  by: { id: string; name: string };
  /** null where a manager had the words removed; it stands all the same. */
  text: string | null;
};

/**
 * Objections that nobody has closed, to anything that says one of these digests, whichever recipe
 * they were raised on; oldest first.
 */
export async function openObjections(
  db: Db,
  { digests }: { digests: readonly string[] },
): Promise<OpenObjection[]> {
  if (digests.length === 0) return [];
  return db
    .select({
      id: notes.id,
      digest: revisions.digest,
      recipeId: recipes.id,
      slug: recipes.slug,
      name: recipes.name,
      shownTo: recipes.shownTo,
      number: revisions.number,
      by: { id: people.id, name: people.name },
      text: latestWords,
    })
    .from(notes)
    .innerJoin(noteTexts, eq(noteTexts.noteId, notes.id))
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(recipes, eq(recipes.id, notes.recipeId))
    .innerJoin(people, eq(people.id, notes.by))
    .leftJoin(noteClosings, eq(noteClosings.noteId, notes.id))
    .where(
      and(
        eq(notes.blocking, true),
        inArray(revisions.digest, [...digests]),
        isNull(noteClosings.noteId),
      ),
    )
    .orderBy(asc(notes.id));
}
