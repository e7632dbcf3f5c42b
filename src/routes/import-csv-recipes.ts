import { readAmount } from "../chem/amount-text.ts";
import type { RecipeInFile, RefusedInFile } from "../db/import-types.ts";
import { foldName } from "../db/names.ts";
import { check } from "../wire/body.ts";
import type { CsvTable } from "../wire/csv-table.ts";
import type { Fault } from "../wire/problems.tsx";
import { mostRecipes, recipeInFile } from "./import-body.ts";
import { cellPlace, hasDecimalComma, type RowByWord, rowsByWord } from "./import-columns.ts";
import type { ReadOutcome } from "./import-json.ts";

const ofLine = ["part", "material", "amount"] as const;
const ofRecipe = [
  "maker",
  "source",
  "use",
  "cone",
  "coneHigh",
  "atmosphere",
  "surface",
  "about",
] as const;

const words = new Map(["recipe", ...ofLine, ...ofRecipe].map((word) => [word.toLowerCase(), word]));

/** The word of a column, in any case: `cone high` is `coneHigh` too. */
const wordOf = (heading: string): string | undefined =>
  words.get(heading.toLowerCase().replace(/[\s_-]+/g, ""));

/** Whether this heading is that of recipes, one line of a recipe a row. */
export const isRecipesHeading = (header: readonly string[]): boolean =>
  header.some((heading) => wordOf(heading) === "recipe");

/**
 * Recipes as CSV: each row a line with its recipe's name, and what is said of the recipe as a whole
 * on its first row; a later row may say it again, not otherwise. A row without a name goes on with
 * the recipe above it.
 */
export function readRecipesCsv(table: Extract<CsvTable, { kind: "table" }>): ReadOutcome {
  const read = rowsByWord(table, wordOf);
  if (read.kind === "faulty") return read;
  const has = new Set(table.header.map(wordOf));
  const lacks = ["material", "amount"].filter((word) => !has.has(word));
  if (lacks.length > 0) {
    const faults = lacks.map((word) => ({
      path: "row 1",
      says: `The column “${word}” is needed.`,
    }));
    return { kind: "faulty", faults };
  }
  const groups = groupsOf(read.rows);
  if (groups.length > mostRecipes)
    return {
      kind: "faulty",
      faults: [{ path: "", says: `At most ${mostRecipes} recipes a file.` }],
    };
  const decimalComma = hasDecimalComma(read.rows, ["amount"]);
  const recipes: RecipeInFile[] = [];
  const refused: RefusedInFile[] = [];
  for (const group of groups) {
    const made = recipeOf(group, decimalComma);
    if ("faults" in made) refused.push(made);
    else recipes.push(made);
  }
  const file = { kind: "recipes as csv", materials: [], recipes, refused, leftBehind: [] } as const;
  return { kind: "read", file };
}

/** The rows of each recipe, in the order in which they come first. */
function groupsOf(rows: readonly RowByWord[]): RowByWord[][] {
  const groups = new Map<string, RowByWord[]>();
  let key = "";
  for (const row of rows) {
    const name = row.cells.get("recipe");
    if (name !== undefined) key = foldName(name);
    const group = groups.get(key);
    if (group) group.push(row);
    else groups.set(key, [row]);
  }
  return [...groups.values()];
}

function recipeOf(rows: readonly RowByWord[], decimalComma: boolean): RecipeInFile | RefusedInFile {
  const first = rows[0]?.row ?? 0;
  const name = rows[0]?.cells.get("recipe") ?? "";
  const faults: Fault[] = [];
  const said = new Map<string, { row: number; text: string }>();
  for (const { row, cells } of rows) {
    for (const word of ofRecipe) {
      const text = cells.get(word);
      const before = said.get(word);
      if (text === undefined) continue;
      if (before === undefined) said.set(word, { row, text });
      else if (before.text !== text) {
        const says = `Row ${before.row} says otherwise of the same recipe.`;
        faults.push({ path: cellPlace(row, word), says });
      }
    }
  }
  const lines = rows.map(({ row, cells }) => {
    const amount = readAmount(cells.get("amount") ?? "", { decimalComma });
    if (amount.kind === "unreadable") {
      const says = cells.has("amount") ? amount.says : "This is needed.";
      faults.push({ path: cellPlace(row, "amount"), says });
    }
    return {
      part: (cells.get("part") ?? "base").toLowerCase(),
      material: cells.get("material"),
      amount: amount.kind === "amount" ? amount.amount.toFixed() : "1",
    };
  });
  const word = (of: string) => said.get(of)?.text;
  const cone = word("cone");
  const read = check(recipeInFile, {
    name,
    maker: word("maker"),
    source: word("source"),
    revision: {
      lines,
      use: word("use")?.toLowerCase(),
      cones: cone === undefined ? undefined : { low: cone, high: word("coneHigh") ?? cone },
      atmosphere: word("atmosphere")?.toLowerCase(),
      surface: word("surface"),
      about: word("about"),
    },
  });
  if (read.kind === "refused")
    faults.push(...read.faults.map((fault) => placed(fault, rows, said)));
  if (read.kind === "refused" || faults.length > 0)
    return { noun: "recipe", place: `row ${first}`, name: name.slice(0, 80), faults };
  const placedLines = read.value.lines.map((line, index) => ({
    ...line,
    place: `row ${rows[index]?.row ?? first}`,
  }));
  return { ...read.value, lines: placedLines, place: `row ${first}` };
}

/** Where in the table a fault of the recipe stands. */
function placed(
  { path, says }: Fault,
  rows: readonly RowByWord[],
  said: ReadonlyMap<string, { row: number }>,
): Fault {
  const first = rows[0]?.row ?? 0;
  const [, at, ofTheLine] = /^revision\.lines\.(\d+)(?:\.(\w+))?/.exec(path) ?? [];
  if (at !== undefined) {
    const { row } = rows[Number(at)] ?? { row: first };
    return { path: ofTheLine ? cellPlace(row, ofTheLine) : `row ${row}`, says };
  }
  const word = path.endsWith("cones.high")
    ? said.has("coneHigh")
      ? "coneHigh"
      : "cone"
    : /cones/.test(path)
      ? "cone"
      : path === "name"
        ? "recipe"
        : path.replace(/^revision\./, "");
  return { path: cellPlace(said.get(word)?.row ?? first, word), says };
}
