import { asc, desc, gt } from "drizzle-orm";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { prepared } from "./prepared.ts";
import { events } from "./schema/index.ts";

/** What the first event is chained to. */
export const start = "0".repeat(64);

/** The last event of the chain at some moment: whoever noted it down elsewhere can tell a cut. */
export type Head = { seq: number; hash: string };

export type ChainFault = { seq: number; says: string };

export type Chain = { head: Head; fault: ChainFault | undefined };

/**
 * Reads the whole chain of events. A fault is the first place where it does not hold: a row that was
 * changed, removed or put in another's place. That the end was cut off, or written anew from some row
 * on, can be seen only from outside: by `last`, the head as it was once.
 *
 * @returns with the head as it is, or the last event before the fault.
 */
export async function readChain(
  db: Db,
  { last }: { last?: Head | undefined } = {},
): Promise<Chain> {
  let head: Head = { seq: 0, hash: start };
  let after: number | undefined;
  for (;;) {
    const page = await db
      .select()
      .from(events)
      .where(after === undefined ? undefined : gt(events.seq, after))
      .orderBy(asc(events.seq))
      .limit(1000);
    if (page.length === 0) return { head, fault: last && cutAfter(head, last) };
    for (const row of page) {
      const says = faultOf(row, head) ?? rewritten(row, last);
      if (says) return { head, fault: { seq: head.seq + 1, says } };
      head = { seq: row.seq, hash: row.hash };
    }
    after = head.seq;
  }
}

/** The first place where the chain of events does not hold, or undefined where all of it does. */
export const findChainFault = async (
  db: Db,
  params: { last?: Head | undefined } = {},
): Promise<ChainFault | undefined> => (await readChain(db, params)).fault;

const lastHash = prepared((db) =>
  db
    .select({ hash: events.hash })
    .from(events)
    .orderBy(desc(events.seq))
    .limit(1)
    .prepare("head_hash"),
);

/** The hash of the last event: another one as soon as anything happens. */
export async function findHeadHash(db: Db): Promise<string> {
  const [last] = await lastHash(db).execute();
  return last?.hash ?? start;
}

type Row = typeof events.$inferSelect;

function faultOf(row: Row, { seq: before, hash: previous }: Head): string | undefined {
  const expected = before + 1;
  if (row.seq < expected) return `an event ${row.seq} stands before the first`;
  if (row.seq > expected) return `${eventsFrom(expected, row.seq - 1)} missing`;
  if (sha256(row.text) !== row.hash)
    return `event ${expected} was changed: its hash is not that of its text`;
  const said = readText(row.text);
  if (!said) return `event ${expected} was changed: its text cannot be read`;
  if (said.seq !== expected)
    return `event ${expected} is out of order: its text says that it is event ${String(said.seq)}`;
  if (row.previous !== previous)
    return before === 0
      ? "event 1 is not the first of a chain: something before it was removed, or it was changed"
      : `event ${expected} does not follow event ${before}: one of the two was changed`;
  const columns = { id: row.id, at: row.at.toISOString(), by: row.by, previous: row.previous };
  const { kind, subject, subjectId } = row;
  const stands = Object.entries({ ...columns, kind, subject, subjectId });
  return stands.every(([name, value]) => value === said[name])
    ? undefined
    : `event ${expected} was changed: its columns are not what its text says`;
}

function readText(text: string): Record<string, unknown> | undefined {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const rewritten = (row: Row, last: Head | undefined): string | undefined =>
  last && row.seq === last.seq && row.hash !== last.hash
    ? `event ${row.seq} is not the one that was known: it, or one before it, was written anew`
    : undefined;

const cutAfter = ({ seq }: Head, last: Head): ChainFault | undefined =>
  seq < last.seq
    ? {
        seq: seq + 1,
        says: `${eventsFrom(seq + 1, last.seq)} cut off: the chain ends with event ${seq}`,
      }
    : undefined;

const eventsFrom = (first: number, last: number): string =>
  first === last ? `event ${first} is` : `events ${first} to ${last} are`;
