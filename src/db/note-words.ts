import { asc, inArray, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { noteEdits, noteTexts } from "./schema/index.ts";

/** The words of a note as they read now, beside `note_texts`; null once they were removed. */
export const latestWords = sql<string | null>`case when ${noteTexts.text} is null then null else
  coalesce((select e.text from ${noteEdits} e where e.note_id = ${noteTexts.noteId} order by e.id desc limit 1), ${noteTexts.text}) end`;

/** Other words that notes were given later, by the note, oldest first. */
export async function listEdits(
  db: Db,
  noteIds: readonly string[],
): Promise<Map<string, { text: string; at: Date }[]>> {
  const edits = new Map<string, { text: string; at: Date }[]>();
  if (noteIds.length === 0) return edits;
  const rows = await db
    .select({ noteId: noteEdits.noteId, text: noteEdits.text, at: noteEdits.at })
    .from(noteEdits)
    .where(inArray(noteEdits.noteId, [...noteIds]))
    .orderBy(asc(noteEdits.id));
  for (const { noteId, text, at } of rows)
    if (text !== null) edits.set(noteId, [...(edits.get(noteId) ?? []), { text, at }]);
  return edits;
}
