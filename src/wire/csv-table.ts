import { CsvError, parse } from "csv-parse/sync";

/** A row with its number as a spreadsheet counts, 1 being the heading. */
export type CsvRow = { row: number; cells: string[] };

export type CsvTable =
  | { kind: "table"; header: string[]; rows: CsvRow[] }
  | { kind: "unreadable"; row: number; says: string };

const mostRows = 50_000;
const longestRow = 100_000;

const sayings: Record<string, string> = {
  CSV_QUOTE_NOT_CLOSED: "A quotation mark is opened here and never closed.",
  INVALID_OPENING_QUOTE:
    "A quotation mark stands in the middle of a cell. Put the whole cell in quotation marks, and write the one inside twice.",
  CSV_INVALID_CLOSING_QUOTE:
    "Something stands behind the closing quotation mark of a cell. Write a mark inside a cell twice.",
  CSV_MAX_RECORD_SIZE: `A row has at most ${longestRow} characters.`,
};

/**
 * CSV as spreadsheets write it: parted by commas, semicolons or tabs, whichever the heading has most
 * of; cells in quotation marks, with a byte order mark or without, and any line endings. Cells come
 * trimmed, rows without anything in them not at all.
 */
export function readCsvTable(text: string): CsvTable {
  let records: { record: string[]; info: { lines: number } }[];
  try {
    records = parse(text, {
      bom: true,
      delimiter: delimiterOf(text),
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      max_record_size: longestRow,
      // One more than is read, to know that there are more.
      to: mostRows + 2,
    }) as unknown as typeof records;
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const row = typeof error.lines === "number" ? error.lines : 1;
    return { kind: "unreadable", row, says: sayings[error.code] ?? "This row is not CSV." };
  }
  const rows = records
    .map(({ record, info }) => ({ row: info.lines, cells: record }))
    .filter(({ cells }) => cells.some((cell) => cell !== ""));
  const [first, ...rest] = rows;
  if (!first) return { kind: "unreadable", row: 1, says: "The file is empty." };
  if (rest.length > mostRows)
    return { kind: "unreadable", row: mostRows + 2, says: `At most ${mostRows} rows are read.` };
  return { kind: "table", header: first.cells, rows: rest };
}

/** The heading has no decimals and hardly a sentence, so what it is parted by is plain. */
function delimiterOf(text: string): string {
  const heading = /[^\r\n]+/.exec(text)?.[0] ?? "";
  const bare = heading.slice(0, longestRow).replace(/"[^"]*"/g, "");
  const times = (mark: string) => bare.split(mark).length - 1;
  return [";", "\t", ","].reduce((best, mark) => (times(mark) > times(best) ? mark : best), ",");
}
