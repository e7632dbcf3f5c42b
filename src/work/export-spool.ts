import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { mkdtemp, open, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Readable } from "node:stream";
import type { Head } from "../db/chain.ts";
import type { Db } from "../db/client.ts";
import { canonicalJson } from "../db/digests.ts";
import type { Noun } from "../db/export-nouns.ts";
import {
  type FileBeside,
  findHead,
  listPictureFiles,
  listReportFiles,
  readRows,
} from "../db/export-rows.ts";

/** The rows of one noun, written down in a file of their own. */
export type SpooledRows = { noun: Noun; rows: number; bytes: number; sha256: string };

/** What a studio held at one moment, written down outside its database. */
export type Spool = {
  tables: SpooledRows[];
  pictures: FileBeside[];
  reports: FileBeside[];
  head: Head;
  read: (table: SpooledRows) => Readable;
  /** Takes away what was written down. */
  remove: () => Promise<void>;
};

/**
 * Writes down all rows as they stand at one moment, a batch at a time, so that the database is free
 * again before anybody has fetched a byte. They go into a folder that only this program's user can
 * read.
 */
export async function spoolRows(db: Db, nouns: readonly Noun[]): Promise<Spool> {
  const folder = await mkdtemp(join(tmpdir(), "bucket-export-"));
  const remove = () => rm(folder, { recursive: true, force: true });
  try {
    const held = await db.transaction(
      async (tx) => {
        const tables: SpooledRows[] = [];
        for (const noun of nouns) tables.push(await spoolNoun(tx, noun, folder));
        const pictures = await listPictureFiles(tx);
        const reports = await listReportFiles(tx);
        return { tables, pictures, reports, head: await findHead(tx) };
      },
      { isolationLevel: "repeatable read", accessMode: "read only" },
    );
    const read = ({ noun }: SpooledRows) => createReadStream(join(folder, noun.name));
    return { ...held, read, remove };
  } catch (error) {
    await remove();
    throw error;
  }
}

async function spoolNoun(tx: Db, noun: Noun, folder: string): Promise<SpooledRows> {
  const file = await open(join(folder, noun.name), "wx", 0o600);
  try {
    const digest = createHash("sha256");
    let rows = 0;
    let bytes = 0;
    for await (const batch of readRows(tx, noun)) {
      const lines = Buffer.from(batch.map((row) => `${canonicalJson(row)}\n`).join(""));
      digest.update(lines);
      await file.write(lines);
      rows += batch.length;
      bytes += lines.length;
    }
    return { noun, rows, bytes, sha256: digest.digest("hex") };
  } finally {
    await file.close();
  }
}
