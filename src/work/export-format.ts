import { readFileSync } from "node:fs";
import { z } from "zod";
import { migrationsFolder } from "../db/client.ts";
import { exported, type Noun } from "../db/export-nouns.ts";

export const exportFormat = "common-bucket";

/** Raised when a file of the version before could no longer be read by these rules. */
export const exportVersion = 1;

export const manifestName = "manifest.json";
export const rowsName = ({ name }: Pick<Noun, "name">): string => `${name}.jsonl`;
export const pictureName = (sha256: string): string => `pictures/${sha256}.jpg`;
export const reportName = (sha256: string): string => `reports/${sha256}.pdf`;

const mib = 1024 * 1024;

/** The largest file of each kind, unpacked: what the studio itself takes, and room for a long record. */
export const mostBytes = {
  rows: 8 * 1024 * mib,
  picture: 30 * mib,
  report: 20 * mib,
  manifest: 64 * mib,
  line: 16 * mib,
} as const;

const rowsNames = new Set(exported.map(rowsName));

/** How large a file of that name may be, or undefined where an export has no such file. */
export function mostBytesOf(name: string): number | undefined {
  if (rowsNames.has(name)) return mostBytes.rows;
  if (name === manifestName) return mostBytes.manifest;
  if (/^pictures\/[0-9a-f]{64}\.jpg$/.test(name)) return mostBytes.picture;
  if (/^reports\/[0-9a-f]{64}\.pdf$/.test(name)) return mostBytes.report;
  return undefined;
}

const digest = z.string().regex(/^[0-9a-f]{64}$/);
const count = z.int().min(0);

export const manifestSchema = z.strictObject({
  format: z.literal(exportFormat),
  version: z.literal(exportVersion),
  madeAt: z.iso.datetime({ precision: 3 }).describe("When the rows were read, UTC"),
  app: z.string().max(40).describe("The version of Common Bucket that made it"),
  secrets: z
    .literal(true)
    .optional()
    .describe("A backup: password hashes and the digests of links are in it too"),
  schema: z.string().max(80).describe("The last migration of the database that it was read from"),
  head: z
    .strictObject({ seq: count, hash: digest })
    .describe("The last event of the record, and its hash"),
  counts: z.record(z.string(), count).describe("How many rows each noun has"),
  entries: z
    .array(z.strictObject({ name: z.string(), bytes: count, sha256: digest }))
    .describe("Every other file, in the order in which it stands in the zip"),
});

export type Manifest = z.infer<typeof manifestSchema>;

/** The names of the database's migrations, oldest first. */
export function migrationNames(): string[] {
  const journal = JSON.parse(readFileSync(`${migrationsFolder}/meta/_journal.json`, "utf8"));
  return journal.entries.map(({ tag }: { tag: string }) => tag);
}
