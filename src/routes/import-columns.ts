import type { CsvTable } from "../wire/csv-table.ts";
import type { Fault } from "../wire/problems.tsx";

/** One row with its cells by the word of their column; an empty cell is not there. */
export type RowByWord = { row: number; cells: ReadonlyMap<string, string> };

/** Where a cell stands, as people find it. */
export const cellPlace = (row: number, word: string): string => `row ${row}, ${word}`;

const mostColumns = 120;

type Columns = { kind: "rows"; rows: RowByWord[] } | { kind: "faulty"; faults: Fault[] };

/**
 * The rows of a table whose heading has these words, in any order and case. A column that nobody
 * knows is refused, since leaving it out would lose what it says; so are two of one word.
 *
 * @param wordOf the column's own word, or undefined where there is none such.
 */
export function rowsByWord(
  { header, rows }: Extract<CsvTable, { kind: "table" }>,
  wordOf: (heading: string) => string | undefined,
): Columns {
  if (header.length > mostColumns) {
    const says = `At most ${mostColumns} columns are read.`;
    return { kind: "faulty", faults: [{ path: "row 1", says }] };
  }
  const faults: Fault[] = [];
  const words = header.map((heading, index) => {
    const word = wordOf(heading);
    const shown = heading.slice(0, 40);
    if (heading === "" && rows.every(({ cells }) => !cells[index])) return "";
    if (word === undefined)
      faults.push({ path: "row 1", says: `No column is called “${shown}” here.` });
    else if (header.findIndex((other) => wordOf(other) === word) !== index)
      faults.push({ path: "row 1", says: `The column “${shown}” stands twice.` });
    return word ?? "";
  });
  const told = faults.slice(0, 20);
  if (told.length > 0) return { kind: "faulty", faults: told };
  const tooWide = rows.filter(({ cells }) => cells.slice(words.length).some((cell) => cell !== ""));
  if (tooWide.length > 0) {
    const says =
      "This row has more cells than the heading. A decimal comma needs quotation marks where commas part the cells.";
    return {
      kind: "faulty",
      faults: tooWide.slice(0, 20).map(({ row }) => ({ path: `row ${row}`, says })),
    };
  }
  return {
    kind: "rows",
    rows: rows.map(({ row, cells }) => ({
      row,
      cells: new Map(words.flatMap((word, at) => (word && cells[at] ? [[word, cells[at]]] : []))),
    })),
  };
}

/** Whether the numbers of these columns are written with a decimal comma. */
export const hasDecimalComma = (rows: readonly RowByWord[], words: readonly string[]): boolean =>
  rows.some(({ cells }) =>
    words.some((word) => /^[-−+]?\d*,(?:\d{1,2}|\d{4,})$/.test(cells.get(word) ?? "")),
  );
