import { eq } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { writeNote } from "./note-rows.ts";
import type { KnownNote } from "./notes.ts";
import { notes } from "./schema/index.ts";

type Reply = Act & { note: KnownNote; text: string; by: string };

/** Answers in a note's thread. The note was found through the reader's scope. */
export const replyTo = (db: Db, { note, text, by, at }: Reply): Promise<{ id: string }> =>
  db.transaction(async (tx) => {
    const { id, textDigest } = await writeReply(tx, { note, text, by, at });
    const detail = { note: id, thread: note.thread, number: note.revision.number, textDigest };
    const { id: subjectId } = note.recipe;
    await appendEvent(tx, { by, at }, { kind: "replied", subject: "recipe", subjectId, detail });
    return { id };
  });

/** The rows of a reply, which hangs where the first note of its thread does. */
export async function writeReply(tx: Db, { note, text, by, at }: Reply) {
  const [first] = await tx
    .select({
      recipeId: notes.recipeId,
      revisionId: notes.revisionId,
      anchor: notes.anchor,
      anchorKey: notes.anchorKey,
      snapshot: notes.snapshot,
    })
    .from(notes)
    .where(eq(notes.id, note.thread));
  if (!first) throw new Error(`note ${note.thread} is not there`);
  return writeNote(tx, { ...first, replyTo: note.thread, text, by, at });
}
