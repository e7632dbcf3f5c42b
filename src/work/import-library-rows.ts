import type { ExportRow } from "../db/export-fields.ts";

/** The nouns of an export that an import reads. */
export const readNouns = [
  "studios",
  "people",
  "materials",
  "materialNames",
  "analyses",
  "analysisOxides",
  "analysesInUse",
  "recipes",
  "revisions",
  "revisionLines",
  "withdrawals",
  "tiles",
  "tileWithdrawals",
  "tests",
  "testResults",
  "testWithdrawals",
  "notes",
  "noteTexts",
  "noteEdits",
  "reviews",
] as const;

/** A row with its file and line. */
export type Placed = ExportRow & { place: string };
export type Rows = Record<(typeof readNouns)[number], Placed[]>;

export const words = (value: unknown): string => (typeof value === "string" ? value : "");

/** Rows by a field of theirs, in their order. */
export function by(rows: readonly Placed[], field: string): Map<string, Placed[]> {
  const found = new Map<string, Placed[]>();
  for (const row of rows) {
    const key = words(row[field]);
    const those = found.get(key);
    if (those) those.push(row);
    else found.set(key, [row]);
  }
  return found;
}
