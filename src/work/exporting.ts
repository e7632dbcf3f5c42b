import { Readable } from "node:stream";
import type { Db } from "../db/client.ts";
import { canonicalJson, sha256 as sha256Of } from "../db/digests.ts";
import { backedUp, exported } from "../db/export-nouns.ts";
import { type FileBeside, readPictureFile, readReportFile } from "../db/export-rows.ts";
import {
  exportFormat,
  exportVersion,
  type Manifest,
  manifestName,
  migrationNames,
  pictureName,
  reportName,
  rowsName,
} from "./export-format.ts";
import { type Spool, spoolRows } from "./export-spool.ts";
import { version } from "./program.ts";
import { writeZip, type ZipPart } from "./zip-writing.ts";

/**
 * The whole library as a zip, see docs/format.md. Its rows are of one moment; pictures and reports are
 * read one by one as they are fetched, since they are known by their digests and never change.
 *
 * @param secrets a backup, with what lets people in; a library to take along has none of that.
 * @returns a stream that fails, rather than ends short, where a picture was removed meanwhile.
 */
export async function exportLibrary(
  db: Db,
  { at, secrets = false }: { at: Date; secrets?: boolean },
): Promise<Readable> {
  const spool = await spoolRows(db, secrets ? backedUp : exported);
  try {
    const zip = writeZip(partsOf(db, spool, { at, secrets }));
    zip.once("close", () => void spool.remove());
    return zip;
  } catch (error) {
    await spool.remove();
    throw error;
  }
}

function partsOf(db: Db, spool: Spool, { at, secrets }: { at: Date; secrets: boolean }): ZipPart[] {
  const { tables, pictures, reports } = spool;
  const rows = tables.map((table) => ({
    name: rowsName(table.noun),
    bytes: table.bytes,
    sha256: table.sha256,
    deflated: true,
    open: async () => spool.read(table),
  }));
  const files = [
    ...pictures.map((file) =>
      fileBeside(pictureName(file.sha256), file, () => readPictureFile(db, file.sha256)),
    ),
    ...reports.map((file) =>
      fileBeside(reportName(file.sha256), file, () => readReportFile(db, file.sha256)),
    ),
  ];
  const parts = [...rows, ...files];
  const manifest: Manifest = {
    format: exportFormat,
    version: exportVersion,
    madeAt: at.toISOString(),
    app: version,
    ...(secrets && { secrets }),
    schema: migrationNames().at(-1) ?? "",
    head: spool.head,
    counts: Object.fromEntries(tables.map(({ noun, rows: count }) => [noun.name, count])),
    entries: parts.map(({ name, bytes, sha256 }) => ({ name, bytes, sha256 })),
  };
  const said = Buffer.from(`${canonicalJson(manifest)}\n`);
  const last = { name: manifestName, bytes: said.length, deflated: true };
  return [...parts, { ...last, open: async () => Readable.from([said]) }];
}

const fileBeside = (
  name: string,
  { bytes, sha256 }: FileBeside,
  read: () => Promise<Uint8Array | undefined>,
): ZipPart & { sha256: string } => ({
  name,
  bytes,
  sha256,
  deflated: false,
  open: async () => {
    const content = await read();
    if (!content)
      throw new Error(`${name} was removed while the export was being made: make another.`);
    if (sha256Of(content) !== sha256) throw new Error(`${name} is not what its digest says.`);
    return Readable.from([Buffer.from(content)]);
  },
});
