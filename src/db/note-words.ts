import { sql } from "drizzle-orm";
import { noteEdits, noteTexts } from "./schema/index.ts";

/** The words of a note as they read now, beside `note_texts`; null once they were removed. */
export const latestWords = sql<string | null>`case when ${noteTexts.text} is null then null else
  coalesce((select e.text from ${noteEdits} e where e.note_id = ${noteTexts.noteId} order by e.id desc limit 1), ${noteTexts.text}) end`;
