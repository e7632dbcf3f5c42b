import type { Decimal } from "decimal.js";
import { packGrams, packPrice } from "./price-body.ts";
import type { Fault } from "./problems.tsx";

export type PricedRow = { line: number; material: string; packGrams: Decimal; packPrice: Decimal };

const mostLines = 500;

/**
 * A pasted price list: on each line a powder, the grams of a pack and what it costs, apart by tabs,
 * semicolons or commas, cells in quotes or not, with a heading or without. Empty lines are skipped.
 * A fault names its line.
 */
export function readPriceList(text: string): { rows: PricedRow[]; faults: Fault[] } {
  const rows: PricedRow[] = [];
  const faults: Fault[] = [];
  const refuse = (says: string) => faults.push({ path: "text", says });
  const written = text
    .split("\n")
    .map((cells, place) => ({ line: place + 1, cells: cellsOf(cells) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ""));
  if (written.length > mostLines) {
    refuse(`A list has ${mostLines} lines at most; this one has ${written.length}.`);
    return { rows, faults };
  }
  for (const [place, { line, cells }] of written.entries()) {
    if (place === 0 && !cells.some((cell) => /\d/.test(cell))) continue;
    const [material = "", grams, price, ...more] = cells;
    if (material === "" || price === undefined || more.length > 0) {
      refuse(`Line ${line}: a powder, the grams of a pack and its price are needed, no more.`);
      continue;
    }
    const [readGrams, readPrice] = [packGrams.safeParse(grams), packPrice.safeParse(price)];
    for (const read of [readGrams, readPrice])
      if (!read.success) refuse(`Line ${line}: ${read.error.issues[0]?.message}`);
    if (readGrams.success && readPrice.success)
      rows.push({ line, material, packGrams: readGrams.data, packPrice: readPrice.data });
  }
  if (written.length > 0 && rows.length === 0 && faults.length === 0)
    refuse("There is a heading here and no price.");
  return { rows, faults };
}

const separators = ["\t", ";", ","] as const;

/** Apart by tabs where there are any outside of quotes, else by semicolons, else by commas. */
function cellsOf(line: string): string[] {
  const bare = line.replace(/"[^"]*"/g, "");
  const separator = separators.find((each) => bare.includes(each)) ?? ",";
  const cells: string[] = [];
  let [cell, quoted] = ["", false];
  for (const letter of line) {
    if (letter === '"') quoted = !quoted;
    else if (letter === separator && !quoted) {
      cells.push(cell.trim());
      cell = "";
    } else cell += letter;
  }
  return [...cells, cell.trim()];
}
