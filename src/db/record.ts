import { asc, desc } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type EventRow, type EventsAsked, listEvents } from "./events.ts";
import { findSubjects, type Subject } from "./record-subjects.ts";
import { events, people } from "./schema/index.ts";

export type RecordPage = {
  items: (EventRow & { about: Subject | null })[];
  /** The number of the last event here, where there are further ones in the same order. */
  next: string | null;
  /** The number of the latest event of all; 0 where nothing happened yet. */
  latest: number;
};

/** Events a page. */
export const perPage = 100;

/** A hundred events as they were asked for, with what each is about. */
export async function readRecord(db: Db, asked: Omit<EventsAsked, "limit">): Promise<RecordPage> {
  const rows = await listEvents(db, { ...asked, limit: perPage + 1 });
  const page = rows.slice(0, perPage);
  const about = await findSubjects(db, page);
  const [last] = await db
    .select({ seq: events.seq })
    .from(events)
    .orderBy(desc(events.seq))
    .limit(1);
  const end = page.at(-1);
  return {
    items: page.map((row) => ({ ...row, about: about.get(row.subjectId) ?? null })),
    next: rows.length > perPage && end ? String(end.seq) : null,
    latest: last?.seq ?? 0,
  };
}

/** Whoever can have done something, those who left by their pseudonyms too. */
export const listDoers = (db: Db): Promise<{ id: string; name: string }[]> =>
  db
    .select({ id: people.id, name: people.name })
    .from(people)
    .orderBy(asc(people.nameKey))
    .limit(1000);
