import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import type { Act } from "./events.ts";
import { keepMentions } from "./mentioning.ts";
import { notes, noteTexts, type Snapshot } from "./schema/index.ts";
import type { Anchor } from "./snapshots.ts";

type NoteRow = {
  recipeId: string;
  revisionId: string;
  anchor: Anchor["kind"];
  anchorKey: string | null;
  snapshot: Snapshot;
  replyTo?: string | undefined;
  blocking?: boolean | undefined;
  text: string;
};

/** The rows of a note: where it hangs, its words, and whom they call by name. */
export async function writeNote(
  tx: Db,
  { text, by, at, ...where }: Act & { by: string } & NoteRow,
): Promise<{ id: string; textDigest: string }> {
  const id = uuidv7();
  const textDigest = sha256(text);
  await tx.insert(notes).values({ id, ...where, textDigest, by, at });
  await tx.insert(noteTexts).values({ noteId: id, text });
  await keepMentions(tx, { noteId: id, recipeId: where.recipeId, text });
  return { id, textDigest };
}
