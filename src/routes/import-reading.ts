import { readCsvTable } from "../wire/csv-table.ts";
import { textOfFile } from "../wire/file-text.ts";
import { readJsonText } from "../wire/json-text.ts";
import { isAnalysesHeading, readAnalysesCsv } from "./import-csv-analyses.ts";
import { isRecipesHeading, readRecipesCsv } from "./import-csv-recipes.ts";
import { type ReadOutcome, readImportJson } from "./import-json.ts";

/** What a file of text may weigh. */
export const mostTextBytes = 8 * 1024 * 1024;

/** A file from elsewhere, known by its bytes and never by its name. */
export function readImportFile(bytes: Uint8Array): ReadOutcome {
  if (isZip(bytes)) return faulty("", "Archives are not read yet.");
  if (bytes.length > mostTextBytes)
    return faulty(
      "",
      "The file is over 8 MB. Send it in parts: each part is an import of its own.",
    );
  const read = textOfFile(bytes);
  if (read.kind === "unreadable") return faulty("", read.says);
  if (/^\s*[{[]/.test(read.text)) {
    const json = readJsonText(read.text);
    return json.kind === "unreadable" ? faulty("", json.says) : readImportJson(json.value);
  }
  const table = readCsvTable(read.text);
  if (table.kind === "unreadable") return faulty(`row ${table.row}`, table.says);
  if (isRecipesHeading(table.header)) return readRecipesCsv(table);
  if (isAnalysesHeading(table.header)) return readAnalysesCsv(table);
  return faulty(
    "row 1",
    "The first row names the columns: “recipe, part, material, amount” for recipes, “material, source, SiO2, …” for analyses.",
  );
}

const isZip = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b;

const faulty = (path: string, says: string): ReadOutcome => ({
  kind: "faulty",
  faults: [{ path, says }],
});
