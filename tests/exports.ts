import { Readable } from "node:stream";
import type { Db } from "../src/db/client.ts";
import { exportLibrary } from "../src/work/exporting.ts";
import { gather, openZip } from "../src/work/zip-reading.ts";
import { writeZip } from "../src/work/zip-writing.ts";

/** A moment for exports of tests: only the manifest holds it. */
export const madeAt = new Date("2026-11-20T09:00:00Z");

export const exportOf = async (db: Db, at = madeAt): Promise<Buffer> =>
  gather(await exportLibrary(db, { at }));

export type Files = Map<string, Buffer>;

/** What is in a zip, by name, in its order. */
export async function filesIn(bytes: Uint8Array): Promise<Files> {
  const zip = await openZip({ bytes }, { mostEntries: 100_000, mostBytes: () => 1e9 });
  const files: Files = new Map();
  for (const { name } of zip.entries) files.set(name, await gather(await zip.read(name)));
  return files;
}

/** A zip of files as an export packs them. */
export const zipOf = (files: Iterable<[name: string, content: Uint8Array]>): Promise<Buffer> =>
  gather(
    writeZip(
      [...files].map(([name, content]) => ({
        name,
        bytes: content.length,
        deflated: /\.jsonl?$/.test(name),
        open: async () => Readable.from([Buffer.from(content)]),
      })),
    ),
  );

export const rowsIn = (files: Files, noun: string): Record<string, unknown>[] =>
  (files.get(`${noun}.jsonl`)?.toString("utf8") ?? "")
    .split("\n")
    .filter(Boolean)
    .map((line) => JSON.parse(line));
