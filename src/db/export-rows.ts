import { and, asc, desc, eq, isNotNull, sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import { type Head, start } from "./chain.ts";
import type { Db } from "./client.ts";
import { type ExportRow, type Field, fieldsOf, keysOf, toJson } from "./export-fields.ts";
import type { Noun } from "./export-nouns.ts";
import { masterWidth } from "./pictures.ts";
import { events, pictureBytes, testReports } from "./schema/index.ts";

/** How many rows are held at once. */
const usualBatch = 500;

/**
 * All rows of a noun in the order of its key, a batch at a time, so that no more than one batch is
 * ever held. The order is the same on every engine: by code point where the key is a text.
 */
export async function* readRows(db: Db, noun: Noun): AsyncGenerator<ExportRow[]> {
  const fields = fieldsOf(noun);
  const keys = keysOf(noun);
  const selection = Object.fromEntries(fields.map(({ name, column }) => [name, column]));
  const limit = noun.batch ?? usualBatch;
  let last: Record<string, unknown> | undefined;
  for (;;) {
    const rows: Record<string, unknown>[] = await db
      .select(selection)
      .from(noun.table as PgTable)
      .where(and(noun.only, last && after(keys, last)))
      .orderBy(...keys.map((key) => asc(ordered(key))))
      .limit(limit);
    if (rows.length > 0)
      yield rows.map((row) =>
        Object.fromEntries(Object.entries(row).map(([name, value]) => [name, toJson(value)])),
      );
    if (rows.length < limit) return;
    last = rows.at(-1);
  }
}

const ordered = ({ column, holds }: Field) =>
  holds.is === "text" ? sql`${column} collate "C"` : sql`${column}`;

const after = (keys: readonly Field[], last: Record<string, unknown>) =>
  sql`(${sql.join(keys.map(ordered), sql`, `)}) > (${sql.join(
    keys.map(({ name, column }) => sql.param(last[name], column)),
    sql`, `,
  )})`;

/** The last event of the chain, or its start where nothing has happened. */
export async function findHead(db: Db): Promise<Head> {
  const [last] = await db
    .select({ seq: events.seq, hash: events.hash })
    .from(events)
    .orderBy(desc(events.seq))
    .limit(1);
  return last ?? { seq: 0, hash: start };
}

/** A file that stands beside the rows, known by its SHA-256. */
export type FileBeside = { sha256: string; bytes: number };

/** The pictures whose bytes are there, by their digests. */
export const listPictureFiles = (db: Db): Promise<FileBeside[]> =>
  db
    .select({
      sha256: pictureBytes.sha256,
      bytes: sql<number>`octet_length(${pictureBytes.bytes})`.mapWith(Number),
    })
    .from(pictureBytes)
    .where(and(eq(pictureBytes.width, masterWidth), isNotNull(pictureBytes.bytes)))
    .orderBy(asc(sql`${pictureBytes.sha256} collate "C"`));

/** The laboratories' reports, each once, by their digests. */
export const listReportFiles = (db: Db): Promise<FileBeside[]> =>
  db
    .selectDistinct({
      sha256: sql<string>`${testReports.sha256} collate "C"`,
      bytes: testReports.size,
    })
    .from(testReports)
    .orderBy(asc(sql`${testReports.sha256} collate "C"`));

/** A picture's master, or undefined where it was removed. */
export async function readPictureFile(db: Db, sha256: string): Promise<Uint8Array | undefined> {
  const [kept] = await db
    .select({ bytes: pictureBytes.bytes })
    .from(pictureBytes)
    .where(and(eq(pictureBytes.sha256, sha256), eq(pictureBytes.width, masterWidth)));
  return kept?.bytes ?? undefined;
}

/** A report's bytes. */
export async function readReportFile(db: Db, sha256: string): Promise<Uint8Array | undefined> {
  const [kept] = await db
    .select({ bytes: testReports.bytes })
    .from(testReports)
    .where(eq(testReports.sha256, sha256))
    .limit(1);
  return kept?.bytes;
}
