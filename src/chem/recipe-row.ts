import type { Decimal } from "decimal.js";
import { type NumberHabit, numberPattern, readAmount, unitPattern } from "./amount-text.ts";

/**
 * How a pasted text is laid out as a whole, which settles rows that could be read in two ways:
 * do amounts stand before the names or after them, and what are its commas for?
 */
export type Habit = NumberHabit & {
  readonly order: "before" | "after" | "unclear";
  readonly comma: "columns" | "columns-and-decimals" | "decimals";
};

export type Row = { kind: "line"; name: string; amount: Decimal } | Unreadable;
type Unreadable = { kind: "unreadable"; says: string };

const number = `(${numberPattern})(?:\\s*(${unitPattern}))?`;
const onlyNumber = new RegExp(`^${number}$`, "i");
const before = new RegExp(`^${number}\\s+(?:of\\s+)?(?=\\p{L})(.+)$`, "iu");
const after = new RegExp(`^(.*[^\\s:=.…])(?:\\s*[:=…]\\s*|\\s*\\.{2,}\\s*|\\s+)${number}$`, "iu");
const spacedThousands = /(?:^|\s)\d{1,3}(?: \d{3})+(?:\s*%)?$/;
const longestName = 100;

/** Where the amount of an unsplit row may stand: before the name, after it, both or neither. */
export function placesOfAmount(row: string): { before: boolean; after: boolean } {
  return { before: before.test(row), after: after.test(row) };
}

/** Reads one row that is known to hold a line. Nothing is guessed: what is unclear says so. */
export function readRow(row: string, habit: Habit): Row {
  const columns = columnsOf(row, habit);
  if (columns.length > 1) {
    const amounts = columns.filter((column) => onlyNumber.test(column));
    if (amounts.length > 1) return unreadable("There is more than one amount in this row.");
    if (amounts.length === 1) return rowOfColumns(columns, row, habit);
    if (/[\t;|]/.test(row)) return unreadable("None of these columns is an amount.");
  }
  return rowOfText(row.replace(/[\t;|,]+$/, "").trim(), habit);
}

const unreadable = (says: string): Unreadable => ({ kind: "unreadable", says });

function columnsOf(row: string, { comma }: Habit): string[] {
  const hard = /[\t;|]/.test(row);
  const splitter = hard ? /[\t;|]+/ : comma === "columns" ? /,/ : /,(?!\d)|(?<!\d),/;
  return row
    .split(splitter)
    .map((column) =>
      column
        .trim()
        .replace(/^"(.*)"$/, "$1")
        .trim(),
    )
    .filter((column) => column !== "");
}

function rowOfColumns(columns: readonly string[], row: string, habit: Habit): Row {
  const names = columns.filter((column) => !onlyNumber.test(column));
  if (names.length > 1 && /[\t;|]/.test(row)) {
    return unreadable("Only a name and an amount are read: take the other columns away.");
  }
  const written = columns.find((column) => onlyNumber.test(column)) ?? "";
  return lineOf(names.join(", "), onlyNumber.exec(written)?.[1] ?? "", habit);
}

function rowOfText(row: string, habit: Habit): Row {
  const [first, last] = [before.exec(row), after.exec(row)];
  if (!first && !last) {
    return unreadable("There is no amount here. Write a name and an amount, such as Whiting 20.");
  }
  const marked = { first: first?.[2] !== undefined, last: last?.[3] !== undefined };
  const oneMarked = marked.first !== marked.last;
  const order = oneMarked ? (marked.first ? "before" : "after") : habit.order;
  if (first && last && order === "unclear") {
    return unreadable("Which number is the amount? Put a tab or a comma between name and amount.");
  }
  if (first && (!last || order === "before")) {
    return lineOf(first[3] ?? "", first[1] ?? "", habit);
  }
  const written = last?.[2] ?? "";
  if (spacedThousands.test(row)) {
    return unreadable("Is a space parting thousands here? Put a tab between name and amount.");
  }
  if (habit.comma === "columns-and-decimals" && written.includes(",")) {
    return unreadable("Is this comma a decimal or a column? Put a tab between name and amount.");
  }
  return lineOf(last?.[1] ?? "", written, habit);
}

function lineOf(written: string, digits: string, habit: Habit): Row {
  const name = written
    .replace(/\s+/g, " ")
    .replace(/[\s:=.,–—-]+$/, "")
    .trim();
  const read = readAmount(digits, habit);
  if (read.kind === "unreadable") return read;
  if (!/\p{L}/u.test(name)) return unreadable("A material needs a name.");
  if (name.length > longestName) return unreadable(`A name has at most ${longestName} characters.`);
  if (/\b(?:cone|fire to)$/i.test(name)) {
    return unreadable("This looks like a title or a firing: it was not read as a material.");
  }
  if (/\d[\d.,]*\s*(?:kg|mg|lbs?|oz)$/i.test(name)) {
    return unreadable("Amounts are in one measure here: turn this into grams or parts.");
  }
  return { kind: "line", name, amount: read.amount };
}
