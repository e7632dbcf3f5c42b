import { createHash } from "node:crypto";
import { type Readable, Transform } from "node:stream";
import { type ExportRow, keysOf } from "../db/export-fields.ts";
import { backedUp, exported, type Noun } from "../db/export-nouns.ts";
import {
  exportFormat,
  exportVersion,
  type Manifest,
  manifestName,
  manifestSchema,
  migrationNames,
  mostBytesOf,
  rowsName,
} from "./export-format.ts";
import { linesOf, rowOf } from "./export-lines.ts";
import { rowSchema } from "./export-schemas.ts";
import { FileFault, gather, type OpenZip, openZip, type ZipSource } from "./zip-reading.ts";

export type PlacedRow = { row: ExportRow; line: number };

/** An export whose manifest was read and agrees with the files around it. */
export type OpenExport = {
  manifest: Manifest;
  /** Which nouns it holds: an older file may lack some that came later. */
  nouns: readonly Noun[];
  /** The rows of a noun in order, each read by its schema. Fails with a `FileFault` at its end too. */
  rows: (noun: Noun) => AsyncGenerator<PlacedRow>;
  /** The bytes of a picture or report. */
  file: (name: string) => Promise<Buffer>;
  has: (name: string) => boolean;
  close: () => void;
};

/**
 * Opens an export, from a path or from bytes, and reads its manifest. Nothing else was looked at yet:
 * `rows` and `file` check what they read against the manifest.
 *
 * @throws {FileFault} with a sentence that names the place.
 */
export async function openExport(source: ZipSource): Promise<OpenExport> {
  const zip = await openZip(source, { mostEntries: 1_000_000, mostBytes: mostBytesOf });
  try {
    const manifest = await readManifest(zip);
    const older = isOlder(manifest);
    checkEntries(zip, manifest);
    const entries = new Map(manifest.entries.map((entry) => [entry.name, entry]));
    const held = manifest.secrets ? backedUp : exported;
    const nouns = held.filter((noun) => entries.has(rowsName(noun)));
    checkNouns(nouns, manifest, older);
    const read = async (name: string): Promise<Readable> => {
      const entry = entries.get(name);
      if (!entry) throw new FileFault(`${name} is missing.`);
      return digested(await zip.read(name), entry);
    };
    return {
      manifest,
      nouns,
      rows: (noun) => rowsOf(noun, read, { older, count: manifest.counts[noun.name] ?? 0 }),
      file: async (name) => gather(await read(name)),
      has: (name) => entries.has(name),
      close: zip.close,
    };
  } catch (error) {
    zip.close();
    throw error;
  }
}

async function readManifest(zip: OpenZip): Promise<Manifest> {
  if (zip.entries.at(-1)?.name !== manifestName)
    throw new FileFault(
      `${manifestName} is not the last file in it: this is no export of Common Bucket, or not all of one.`,
    );
  const text = (await gather(await zip.read(manifestName))).toString("utf8");
  const json = parsed(text);
  const { format, version } = json;
  if (format !== exportFormat) throw new FileFault("This is no export of Common Bucket.");
  if (version !== exportVersion)
    throw new FileFault(
      `It is of version ${String(version)} of the format; this program reads version ${exportVersion}. Update it first.`,
    );
  const read = manifestSchema.safeParse(json);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new FileFault(`${manifestName}, ${issue?.path.join(".")}: ${issue?.message}.`);
}

function parsed(text: string): Record<string, unknown> {
  try {
    const json = JSON.parse(text);
    if (typeof json === "object" && json !== null) return json;
  } catch {
    // Said below, as for whatever else is no manifest.
  }
  throw new FileFault(`${manifestName} is not JSON.`);
}

/** Whether it was made before the database here got its last migration. */
function isOlder({ schema, app }: Manifest): boolean {
  const known = migrationNames();
  const place = known.indexOf(schema);
  if (place === -1)
    throw new FileFault(
      `It was made by a newer Common Bucket (${app}, ${schema}) than this one. Update this one first.`,
    );
  return place < known.length - 1;
}

function checkEntries({ entries }: OpenZip, manifest: Manifest): void {
  const there = entries.slice(0, -1);
  const said = new Set(manifest.entries.map(({ name }) => name));
  const stray = there.find(({ name }) => !said.has(name));
  if (stray) throw new FileFault(`${stray.name} is in it, and the manifest does not name it.`);
  const names = new Set(there.map(({ name }) => name));
  const missing = manifest.entries.find(({ name }) => !names.has(name));
  if (missing) throw new FileFault(`${missing.name} is missing.`);
  if (said.size !== manifest.entries.length)
    throw new FileFault(`${manifestName} names a file twice.`);
  manifest.entries.forEach(({ name, bytes }, place) => {
    const entry = there[place];
    if (entry?.name !== name || !follows(name, manifest.entries[place - 1]?.name))
      throw new FileFault(`${name} does not stand in its place in the zip.`);
    if (entry.bytes !== bytes)
      throw new FileFault(`${name} has ${entry.bytes} bytes; the manifest says ${bytes}.`);
  });
}

const order = new Map(exported.map((noun, place) => [rowsName(noun), place]));

/** Whether a file stands after another: the rows in their order, then pictures, then reports, by their digests. */
function follows(name: string, before: string | undefined): boolean {
  if (before === undefined) return true;
  const [place, last] = [placeOf(name), placeOf(before)];
  return place > last || (place === last && name > before);
}

const placeOf = (name: string): number =>
  order.get(name) ?? exported.length + (name.startsWith("pictures/") ? 0 : 1);

function checkNouns(nouns: readonly Noun[], { counts }: Manifest, older: boolean): void {
  const names = new Set(nouns.map(({ name }) => name));
  const absent = exported.find(({ name }) => !names.has(name));
  if (absent && !older) throw new FileFault(`${rowsName(absent)} is missing.`);
  const counted = Object.keys(counts);
  const odd = [...counted.filter((name) => !names.has(name)), ...names].find(
    (name) => !names.has(name) || counts[name] === undefined,
  );
  if (odd) throw new FileFault(`${manifestName}, counts.${odd}: it does not fit the files.`);
}

/** Passes bytes on and fails at the end where they are not those that the manifest names. */
function digested(stream: Readable, entry: { name: string; sha256: string }): Readable {
  const digest = createHash("sha256");
  const check = new Transform({
    transform(chunk, _encoding, done) {
      digest.update(chunk);
      done(null, chunk);
    },
    flush(done) {
      const right = digest.digest("hex") === entry.sha256;
      done(
        right
          ? null
          : new FileFault(`${entry.name} is not what the manifest says: its SHA-256 differs.`),
      );
    },
  });
  stream.once("error", (error) => check.destroy(error));
  check.once("close", () => stream.destroy());
  return stream.pipe(check);
}

async function* rowsOf(
  noun: Noun,
  read: (name: string) => Promise<Readable>,
  { older, count }: { older: boolean; count: number },
): AsyncGenerator<PlacedRow> {
  const name = rowsName(noun);
  const schema = rowSchema(noun, { older });
  const keys = keysOf(noun).map((key) => key.name);
  let line = 0;
  let before: ExportRow | undefined;
  for await (const text of linesOf(name, await read(name))) {
    line += 1;
    const row = rowOf(text, schema, `${name}, line ${line}`);
    if (before && !isAfter(row, before, keys))
      throw new FileFault(
        `${name}, line ${line}: it does not stand in the order of ${keys.join(", ")}.`,
      );
    before = row;
    yield { row, line };
  }
  if (line !== count) throw new FileFault(`${name} has ${line} rows; the manifest says ${count}.`);
}

function isAfter(row: ExportRow, before: ExportRow, keys: readonly string[]): boolean {
  for (const key of keys) {
    const [one, other] = [before[key], row[key]];
    if (one === other) continue;
    return typeof one === "number" && typeof other === "number"
      ? one < other
      : Buffer.compare(Buffer.from(String(one)), Buffer.from(String(other))) < 0;
  }
  return false;
}
