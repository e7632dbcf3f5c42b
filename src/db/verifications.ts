import { and, desc, eq } from "drizzle-orm";
import type { Db } from "./client.ts";
import { appendEvent } from "./events.ts";
import { events, people } from "./schema/index.ts";
import { studioId } from "./studios.ts";

/** That the record was checked, when, and whether it held. */
export type Verification = { at: Date; sound: boolean };

const kind = "record verified";

/**
 * Puts on record that everything before was checked. A studio that nobody has joined is left as it is:
 * a restore goes into one only where nothing has happened yet.
 *
 * @returns whether there was anything to put down.
 */
export async function noteVerified(db: Db, { at, sound }: Verification): Promise<boolean> {
  return db.transaction(async (tx) => {
    const [joined] = await tx.select({ id: people.id }).from(people).limit(1);
    if (!joined) return false;
    const happening = { kind, subject: "studio", subjectId: studioId, detail: { sound } } as const;
    await appendEvent(tx, { by: null, at }, happening);
    return true;
  });
}

/** When the record was last checked; undefined where it never was. */
export async function findLastVerified(db: Db): Promise<Verification | undefined> {
  const [last] = await db
    .select({ at: events.at, text: events.text })
    .from(events)
    .where(and(eq(events.subjectId, studioId), eq(events.kind, kind)))
    .orderBy(desc(events.seq))
    .limit(1);
  return last && { at: last.at, sound: JSON.parse(last.text).detail.sound === true };
}
