import { and, eq } from "drizzle-orm";
import { validate as isUuid } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { writeNote } from "./note-rows.ts";
import { type Reader, readableBy } from "./recipes.ts";
import type { FoundRevision } from "./revisions.ts";
import { noteClosings, notes, noteTexts, people, recipes, revisions } from "./schema/index.ts";
import { type Anchor, snapshotOf } from "./snapshots.ts";
import { unsettleDigest } from "./unsettling.ts";

export type { Anchor } from "./snapshots.ts";
export { type FoundNote, findThread, listNotes } from "./threads.ts";

export type NewNote = { kind: "put"; id: string } | { kind: "no-such-place"; says: string };

/**
 * Puts a note on a revision: on the whole, on a line (`key` is its place, from 0), on an oxide of its
 * chemistry, or on a tile of it. What it was put on is kept with it as it reads now. A `blocking` one
 * is an objection to all that says the same.
 */
export async function putNote(
  db: Db,
  params: Act & {
    recipeId: string;
    revision: FoundRevision;
    anchor: Anchor;
    text: string;
    blocking?: boolean | undefined;
    by: string;
  },
): Promise<NewNote> {
  const { recipeId, revision, anchor, text, blocking = false, by, at } = params;
  const snapshot = await snapshotOf(db, revision, anchor);
  if (!snapshot) {
    return {
      kind: "no-such-place",
      says: `Revision ${revision.number} has no such ${anchor.kind} to put a note on.`,
    };
  }
  return db.transaction(async (tx) => {
    const { id, textDigest } = await writeNote(tx, {
      recipeId,
      revisionId: revision.id,
      anchor: anchor.kind,
      anchorKey: anchor.kind === "whole" ? null : (anchor.key ?? null),
      snapshot,
      blocking,
      text,
      by,
      at,
    });
    if (blocking) await unsettleDigest(tx, revision.digest);
    const detail = { note: id, number: revision.number, textDigest, ...(blocking && { blocking }) };
    const happening = { kind: "noted", subject: "recipe", subjectId: recipeId, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "put", id };
  });
}

/** A note as whoever acts on it has to know it: where it hangs, whose it is, what can be done. */
export type KnownNote = {
  id: string;
  /** The first note of its thread: itself, where it is no reply. */
  thread: string;
  recipe: { id: string; slug: string; name: string; head: number };
  revision: { id: string; number: number; digest: string };
  by: { id: string; name: string };
  blocking: boolean;
  closed: boolean;
  removed: boolean;
};

/** A note of a recipe that the reader may know of. */
export async function findNote(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<KnownNote | undefined> {
  if (!isUuid(id)) return undefined;
  const [row] = await db
    .select({
      id: notes.id,
      first: notes.replyTo,
      recipe: { id: recipes.id, slug: recipes.slug, name: recipes.name, head: recipes.head },
      revision: { id: revisions.id, number: revisions.number, digest: revisions.digest },
      by: { id: people.id, name: people.name },
      blocking: notes.blocking,
      closedBy: noteClosings.by,
      text: noteTexts.text,
    })
    .from(notes)
    .innerJoin(noteTexts, eq(noteTexts.noteId, notes.id))
    .innerJoin(recipes, eq(recipes.id, notes.recipeId))
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(people, eq(people.id, notes.by))
    .leftJoin(noteClosings, eq(noteClosings.noteId, notes.id))
    .where(and(eq(notes.id, id), readableBy(reader)));
  if (!row) return undefined;
  const { first, closedBy, text, ...note } = row;
  return { ...note, thread: first ?? note.id, closed: closedBy !== null, removed: text === null };
}
