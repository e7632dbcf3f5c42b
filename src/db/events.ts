import { and, asc, desc, eq, gt, gte, isNull, lt, type SQL, sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { start } from "./chain.ts";
import type { Db } from "./client.ts";
import { canonicalJson, sha256 } from "./digests.ts";
import { events, people } from "./schema/index.ts";

export { type ChainFault, findChainFault } from "./chain.ts";

/** Who does something, and when: what every change is told. */
export type Act = { by: string | null; at: Date };

/** What can happen to something. */
export const subjects = [
  "person",
  "invite",
  "material",
  "recipe",
  "note",
  "tile",
  "photo",
  "studio",
  "body",
  "kiln",
  "firing",
  "test",
  "supplier",
  "lot",
  "review",
  "offer",
  "share link",
  "bucket",
  "mix",
  "plan",
  "recall",
  "pair",
  "trial",
  "family",
  "handout",
  "import",
] as const;

export type Happening = {
  kind: string;
  subject: (typeof subjects)[number];
  subjectId: string;
  /** Ids, digests, numbers and fixed words only: never a name or a text that may have to go. */
  detail?: Record<string, string | number | boolean | null> | undefined;
};

const chainLock = 7_263_402;

/**
 * Adds what happened to the chain. Call it last in the transaction that makes the change: it holds
 * the chain until that ends, which keeps the numbers without gaps.
 */
export const appendEvent = (tx: Db, act: Act, happening: Happening): Promise<number> =>
  appendEvents(tx, [{ act, happening }]);

/**
 * Adds several events in the order given, in one statement; as one and one they are chained.
 *
 * @returns the number of the last event of the chain.
 */
export async function appendEvents(
  tx: Db,
  happened: readonly { act: Act; happening: Happening }[],
): Promise<number> {
  await tx.execute(sql`select pg_advisory_xact_lock(${chainLock})`);
  const [last] = await tx
    .select({ seq: events.seq, hash: events.hash })
    .from(events)
    .orderBy(desc(events.seq))
    .limit(1);
  let { seq, hash } = last ?? { seq: 0, hash: start };
  const rows = happened.map(({ act, happening }) => {
    const row = chained({ seq: seq + 1, previous: hash }, act, happening);
    ({ seq, hash } = row);
    return row;
  });
  if (rows.length > 0) await tx.insert(events).values(rows);
  return seq;
}

function chained(place: { seq: number; previous: string }, act: Act, happening: Happening) {
  const { seq, previous } = place;
  const { by, at } = act;
  const { kind, subject, subjectId, detail = {} } = happening;
  const id = uuidv7();
  const record = { seq, id, at: at.toISOString(), by, kind, subject, subjectId, detail };
  const text = canonicalJson({ ...record, previous });
  return { seq, id, at, by, kind, subject, subjectId, text, previous, hash: sha256(text) };
}

export type EventRow = {
  seq: number;
  id: string;
  at: Date;
  by: { id: string; name: string } | null;
  kind: string;
  subject: string;
  subjectId: string;
  detail: Record<string, unknown>;
};

export type EventsAsked = {
  /** After this one, in the order in which they happened. */
  after?: number | undefined;
  /** Newest first, from before this one where a number is given. */
  before?: number | "the end" | undefined;
  /** Who did it; null is the program itself. */
  by?: string | null | undefined;
  kind?: string | undefined;
  subject?: string | undefined;
  subjectId?: string | undefined;
  /** A calendar day in UTC, such as 2026-03-01. */
  day?: string | undefined;
  limit: number;
};

/** Events in the order they happened, or newest first where `before` is given; `limit` at most. */
export async function listEvents(db: Db, asked: EventsAsked): Promise<EventRow[]> {
  const rows = await db
    .select({
      seq: events.seq,
      id: events.id,
      at: events.at,
      byId: people.id,
      byName: people.name,
      kind: events.kind,
      subject: events.subject,
      subjectId: events.subjectId,
      text: events.text,
    })
    .from(events)
    .leftJoin(people, eq(people.id, events.by))
    .where(whichOf(asked))
    .orderBy(asked.before === undefined ? asc(events.seq) : desc(events.seq))
    .limit(asked.limit);
  return rows.map(({ byId, byName, text, ...row }) => ({
    ...row,
    by: byId === null || byName === null ? null : { id: byId, name: byName },
    detail: JSON.parse(text).detail,
  }));
}

function whichOf(asked: EventsAsked): SQL | undefined {
  const { after, before, by, kind, subject, subjectId, day } = asked;
  const from = day === undefined ? undefined : new Date(`${day}T00:00:00Z`);
  return and(
    after === undefined ? undefined : gt(events.seq, after),
    typeof before === "number" ? lt(events.seq, before) : undefined,
    by === undefined ? undefined : by === null ? isNull(events.by) : eq(events.by, by),
    kind === undefined ? undefined : eq(events.kind, kind),
    subject === undefined ? undefined : eq(events.subject, subject),
    subjectId === undefined ? undefined : eq(events.subjectId, subjectId),
    from && gte(events.at, from),
    from && lt(events.at, new Date(from.getTime() + oneDay)),
  );
}

const oneDay = 24 * 60 * 60 * 1000;
