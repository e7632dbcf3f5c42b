import { Decimal } from "decimal.js";
import { readAmount } from "./amount-text.ts";
import type { Part } from "./lines.ts";
import { type Habit, placesOfAmount, type Row, readRow } from "./recipe-row.ts";

/** `row` counts from 1, as people do. */
export type RecipeTextLine = { row: number; part: Part; name: string; amount: Decimal };
export type RecipeTextFault = { row: number; text: string; says: string };
export type RecipeText = { lines: RecipeTextLine[]; faults: RecipeTextFault[] };

const longestRow = 300;
const mostRows = 500;

const additionsWord = "(?:additions?|additives|add(?:ed)?|plus|colou?rants?|colou?rs?|opacifiers?)";
const additionsHeading = new RegExp(`^${additionsWord}\\s*:?$`, "i");
const additionsThenLine = new RegExp(`^${additionsWord}\\s*:\\s*(.+)$`, "i");
const baseHeading = /^(?:base|base recipe|base glaze|glaze|recipe)\s*:?$/i;
const columnHeading =
  /^"?(?:materials?|names?|ingredients?)"?[\s,;|]+"?(?:amounts?|parts?|percent|%|grams?|g|weights?)"?$/i;
const totalRow = /^(?:(?:sub[- ]?)?totals?(?!\p{L})|sum(?!\p{L})|=)[\s:=,;|]*(.*)$/iu;

/**
 * Reads pasted recipe lines. Names and amounts in either order, parted by spaces, tabs, commas or
 * semicolons; percent signs, bullets and row numbers are taken off; a row beginning with `+` is an
 * addition, and a heading such as "Additions" or "Colourants:" makes additions of what follows.
 *
 * Nothing is dropped silently: a row is a line, or a fault with its number and text, or one that
 * says nothing (blank, a heading, a total that is right). A total that is wrong is a fault.
 *
 * Worked example: `40 Potash feldspar`, `Frit 12, 25`, `+ Red iron oxide 2 %` are two base lines
 * and an addition.
 */
export function readRecipeText(text: string): RecipeText {
  const rows = text.split(/\r\n|\r|\n/).map(tidied);
  const habit = habitOf(rows);
  const reading: Reading = { lines: [], faults: [], part: "base" };
  for (const [index, row] of rows.slice(0, mostRows).entries()) {
    if (row !== "") readInto(reading, row, index + 1, habit);
  }
  const unread = rows.slice(mostRows).find((row) => row !== "");
  if (unread) {
    const says = `Only the first ${mostRows} rows are read.`;
    reading.faults.push({ row: mostRows + 1, text: unread.slice(0, longestRow), says });
  }
  return { lines: reading.lines, faults: reading.faults };
}

type Reading = RecipeText & { part: Part };

function tidied(row: string): string {
  return row
    .replace(/[\u00a0\u2000-\u200a\u202f]/g, " ")
    .trim()
    .replace(/ {2,}/g, " ")
    .replace(/\.{3,}/g, "..")
    .replace(/^(?:[•◦▪·*–—-]|\d{1,2}[.)])\s+(?=\S)/, "")
    .replace(/^\+\s*/, "+ ");
}

/** Looks at all rows at once for what the single row leaves open. */
function habitOf(rows: readonly string[]): Habit {
  const soft = rows.filter((row) => row.length <= longestRow && !/[\t;|]/.test(row));
  const rest = soft.map((row) => row.replace(/^\+ /, ""));
  const columnComma = rest.some((row) => /\D,\s*\d[\d.]*\s*%?$|^\d[\d.]*\s*%?,\s*\D/.test(row));
  const tight = columnComma && !rest.some((row) => /,\s/.test(row));
  const places = rest.map(placesOfAmount).filter((place) => place.before !== place.after);
  const [before, after] = [places.some((p) => p.before), places.some((p) => p.after)];
  return {
    order: before === after ? "unclear" : before ? "before" : "after",
    comma: tight ? "columns" : columnComma ? "columns-and-decimals" : "decimals",
    decimalComma: !tight && rows.some((row) => /\d,(?:\d{1,2}|\d{4,})(?!\d)/.test(row)),
  };
}

function readInto(reading: Reading, row: string, at: number, habit: Habit): void {
  const fault = (says: string) =>
    reading.faults.push({ row: at, text: row.slice(0, longestRow), says });
  if (row.length > longestRow) {
    fault(`A row has at most ${longestRow} characters.`);
    return;
  }
  if (columnHeading.test(row)) return;
  if (additionsHeading.test(row) || baseHeading.test(row)) {
    reading.part = baseHeading.test(row) ? "base" : "addition";
    return;
  }
  const total = totalRow.exec(row);
  if (total) {
    const wrong = faultOfTotal(total[1] ?? "", reading, habit);
    if (wrong) fault(wrong);
    return;
  }
  const inline = additionsThenLine.exec(row)?.[1];
  if (inline) reading.part = "addition";
  const added = row.startsWith("+ ");
  const read: Row = readRow(inline ?? (added ? row.slice(2) : row), habit);
  if (read.kind === "unreadable") {
    fault(read.says);
    return;
  }
  const part = added ? "addition" : reading.part;
  reading.lines.push({ row: at, part, name: read.name, amount: read.amount });
}

/** A total agrees where it is that of the base, of the additions or of everything so far. */
function faultOfTotal(written: string, { lines }: Reading, habit: Habit): string | undefined {
  if (written === "") return undefined;
  const read = readAmount(written.replace(/\s*(?:%|g|grams?|parts?)$/i, ""), habit);
  if (read.kind === "unreadable") return "This total cannot be read; it was left out.";
  const totalOf = (part?: Part) =>
    Decimal.sum(0, ...lines.filter((line) => !part || line.part === part).map((l) => l.amount));
  const totals = [totalOf("base"), totalOf("addition"), totalOf()];
  if (totals.some((total) => total.minus(read.amount).abs().lte("0.05"))) return undefined;
  return `This says ${written}, but the base lines above it add up to ${totals[0]}: is one missing or misread?`;
}
