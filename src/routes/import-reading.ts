import { readCsvTable } from "../wire/csv-table.ts";
import { textOfFile } from "../wire/file-text.ts";
import { readJsonText } from "../wire/json-text.ts";
import { readLibrary } from "../work/import-library.ts";
import { FileFault } from "../work/zip-reading.ts";
import { mostMaterials, mostRecipes } from "./import-body.ts";
import { isAnalysesHeading, readAnalysesCsv } from "./import-csv-analyses.ts";
import { isRecipesHeading, readRecipesCsv } from "./import-csv-recipes.ts";
import { type ReadOutcome, readEntries, readImportJson } from "./import-json.ts";

/** What a file of text may weigh. */
export const mostTextBytes = 8 * 1024 * 1024;

/** A file from elsewhere, known by its bytes and never by its name. */
export async function readImportFile(bytes: Uint8Array): Promise<ReadOutcome> {
  if (bytes.length === 0) return faulty("", "The file is empty.");
  if (isZip(bytes)) return readZip(bytes);
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

/** The export of another studio. */
async function readZip(bytes: Uint8Array): Promise<ReadOutcome> {
  try {
    const library = await readLibrary(bytes);
    const many = library.recipes.length > mostRecipes || library.materials.length > mostMaterials;
    if (!many) return readEntries({ kind: "library", ...library });
    return faulty("", `An import takes in ${mostRecipes} recipes and ${mostMaterials} materials.`);
  } catch (error) {
    if (error instanceof FileFault) return faulty("", error.message);
    throw error;
  }
}

const isZip = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b;

const faulty = (path: string, says: string): ReadOutcome => ({
  kind: "faulty",
  faults: [{ path, says }],
});
