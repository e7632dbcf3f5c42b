import { asc, desc, eq, type SQL } from "drizzle-orm";
import type { Db } from "./client.ts";
import { events, people } from "./schema/index.ts";

/** Something that happened, as the pages of a recipe tell it. */
export type Happened = {
  seq: number;
  at: Date;
  /** null where the program noticed it by itself. */
  by: string | null;
  subject: string;
  subjectId: string;
  kind: string;
  detail: Record<string, unknown>;
};

/** What happened, as far as a condition on events picks it: in its order, or the newest first. */
export async function listHappened(
  db: Db,
  { which, order, limit }: { which: SQL | undefined; order: "oldest" | "newest"; limit: number },
): Promise<Happened[]> {
  const rows = await db
    .select({
      seq: events.seq,
      at: events.at,
      by: people.name,
      subject: events.subject,
      subjectId: events.subjectId,
      kind: events.kind,
      text: events.text,
    })
    .from(events)
    .leftJoin(people, eq(people.id, events.by))
    .where(which)
    .orderBy(order === "oldest" ? asc(events.seq) : desc(events.seq))
    .limit(limit);
  return rows.map(({ text, ...row }) => ({ ...row, detail: JSON.parse(text).detail }));
}
