import { sha256 } from "../db/digests.ts";
import type { ExportRow } from "../db/export-fields.ts";
import { manifestName, pictureName, reportName } from "./export-format.ts";
import type { OpenExport } from "./export-reading.ts";
import { FileFault } from "./zip-reading.ts";

/** Who could let the others in again once it is restored. */
export type Manager = { id: string; name: string; email: string };

/**
 * Reads an export from end to end: every row by its schema, every file by its digest, and that rows
 * and files belong together. What only a database can tell (names that are taken, rows that refer to
 * none) is left to it.
 *
 * @throws {FileFault} with the place of the first thing that is not right.
 */
export async function checkExport(file: OpenExport): Promise<{ managers: Manager[] }> {
  const pictures = new Set<string>();
  const wanted = new Set<string>();
  const managers: Manager[] = [];
  let studios = 0;
  let last: ExportRow | undefined;
  for (const noun of file.nouns) {
    for await (const { row, line } of file.rows(noun)) {
      const place = `${noun.name}.jsonl, line ${line}`;
      const want = (name: string) => {
        if (!file.has(name)) throw new FileFault(`${place}: ${name} is missing.`);
        wanted.add(name);
      };
      if (noun.name === "studios") studios += 1;
      if (noun.name === "people") managers.push(...managersAmong(row));
      if (noun.name === "pictures") pictures.add(String(row.sha256));
      if (noun.name === "pictureBytes") {
        if (!pictures.delete(String(row.sha256)))
          throw new FileFault(`${place}: no row of pictures.jsonl belongs to it.`);
        if (row.removedAt === null) want(pictureName(String(row.sha256)));
      }
      if (noun.name === "testReports") want(reportName(String(row.sha256)));
      if (noun.name === "events") last = row;
    }
  }
  const [bare] = pictures;
  if (bare)
    throw new FileFault(`pictures.jsonl, ${bare}: no row of pictureBytes.jsonl belongs to it.`);
  if (studios !== 1) throw new FileFault("studios.jsonl: there has to be one row.");
  const { head } = file.manifest;
  if ((last?.seq ?? 0) !== head.seq || (last && last.hash !== head.hash))
    throw new FileFault(`${manifestName}, head: it is not the last row of events.jsonl.`);
  await checkFiles(file, wanted);
  return { managers };
}

/** Every picture and report is what its name says, and some row asks for it. */
async function checkFiles(file: OpenExport, wanted: ReadonlySet<string>): Promise<void> {
  for (const { name } of file.manifest.entries) {
    const named = /^\w+\/([0-9a-f]{64})\./.exec(name)?.[1];
    if (!named) continue;
    if (!wanted.has(name)) throw new FileFault(`${name} is in it, and no row asks for it.`);
    if (sha256(await file.file(name)) !== named)
      throw new FileFault(`${name} is not what its name says: its SHA-256 differs.`);
  }
}

function managersAmong({ id, name, email, role, removedAt }: ExportRow): Manager[] {
  return role === "manager" && removedAt === null && typeof email === "string"
    ? [{ id: String(id), name: String(name), email }]
    : [];
}
