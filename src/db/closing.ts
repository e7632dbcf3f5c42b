import { eq, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import type { KnownNote } from "./notes.ts";
import { writeReply } from "./replies.ts";
import { noteClosings } from "./schema/index.ts";
import { unsettleDigest } from "./unsettling.ts";

export type ObjectionClosing =
  | { kind: "closed"; reply: string }
  | { kind: "no-objection" }
  | { kind: "closed-before" };

const closingLock = 7_263_404;

/**
 * Ends an objection, for whoever raised it or, overruled, for a manager: who may do which is asked
 * before. The words stand in the thread as a reply.
 */
export async function closeObjection(
  db: Db,
  params: Act & { note: KnownNote; text: string; overruled: boolean; by: string },
): Promise<ObjectionClosing> {
  const { note, text, overruled, by, at } = params;
  if (!note.blocking) return { kind: "no-objection" };
  return db.transaction(async (tx) => {
    await tx.execute(sql`select pg_advisory_xact_lock(${closingLock}, hashtext(${note.id}))`);
    const before = await tx.$count(noteClosings, eq(noteClosings.noteId, note.id));
    if (before > 0) return { kind: "closed-before" };
    const { id: reply, textDigest } = await writeReply(tx, { note, text, by, at });
    await tx.insert(noteClosings).values({ noteId: note.id, replyId: reply, overruled, by, at });
    await unsettleDigest(tx, note.revision.digest);
    const kind = overruled ? "objection overruled" : "objection closed";
    const detail = { note: note.id, reply, number: note.revision.number, textDigest };
    const { id: subjectId } = note.recipe;
    await appendEvent(tx, { by, at }, { kind, subject: "recipe", subjectId, detail });
    return { kind: "closed", reply };
  });
}
