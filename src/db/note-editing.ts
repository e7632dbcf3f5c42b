import { eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { type Act, appendEvent } from "./events.ts";
import { keepMentions } from "./mentioning.ts";
import { latestWords } from "./note-words.ts";
import type { KnownNote } from "./notes.ts";
import { holdManagers } from "./people.ts";
import { noteEdits, notes, noteTexts } from "./schema/index.ts";

export type NoteEdit = { kind: "edited" } | { kind: "as-before" } | { kind: "removed-before" };

/**
 * Gives a note other words, for whoever wrote it; what it said before stays readable. Words that a
 * manager had removed stay removed, also where both happen at the same moment.
 */
export async function editNote(
  db: Db,
  { note, text, by, at }: Act & { note: KnownNote; text: string; by: string },
): Promise<NoteEdit> {
  return db.transaction(async (tx) => {
    await holdManagers(tx);
    const [now] = await tx
      .select({ text: latestWords })
      .from(noteTexts)
      .innerJoin(notes, eq(notes.id, noteTexts.noteId))
      .where(eq(noteTexts.noteId, note.id));
    if (!now || now.text === null) return { kind: "removed-before" };
    if (now.text === text) return { kind: "as-before" };
    const textDigest = sha256(text);
    await tx.insert(noteEdits).values({ id: uuidv7(), noteId: note.id, text, textDigest, at });
    const { id: recipeId } = note.recipe;
    await keepMentions(tx, { noteId: note.id, recipeId, text });
    const detail = { note: note.id, before: sha256(now.text), textDigest };
    const happening = { kind: "note edited", subject: "recipe", subjectId: recipeId } as const;
    await appendEvent(tx, { by, at }, { ...happening, detail });
    return { kind: "edited" };
  });
}
