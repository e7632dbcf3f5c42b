import type { Typed } from "./body.ts";

/** One row of a worksheet as it was typed. */
export type FormLine = {
  part: "base" | "addition";
  material: string;
  amount: string;
  formula: string;
};

const textOf = (value: unknown): string => (typeof value === "string" ? value : "");

const isRecord = (value: unknown): value is Typed => typeof value === "object" && value !== null;

/** The rows that something was typed in, base lines before additions, as the worksheet shows them. */
export function formLines(lines: unknown): FormLine[] {
  const rows = (Array.isArray(lines) ? lines : []).filter(isRecord).map(
    (row): FormLine => ({
      part: row.part === "addition" ? "addition" : "base",
      material: textOf(row.material),
      amount: textOf(row.amount),
      formula: textOf(row.formula),
    }),
  );
  const typed = rows.filter(({ material, amount, formula }) => material || amount || formula);
  return [
    ...typed.filter(({ part }) => part === "base"),
    ...typed.filter(({ part }) => part === "addition"),
  ];
}

/** What a form sends for its rows: blank ones left out, and an empty cell not there at all. */
export const sentLines = (lines: readonly FormLine[]): Record<string, string>[] =>
  lines.map((line) => Object.fromEntries(Object.entries(line).filter(([, value]) => value !== "")));

/** A typed text at a dotted path, or the empty text. */
export function typedText(typed: unknown, path: string): string {
  let value: unknown = typed;
  for (const key of path.split(".")) value = isRecord(value) ? value[key] : undefined;
  return textOf(value);
}
