import type { Decimal } from "decimal.js";
import type { Part } from "../chem/lines.ts";
import type { Db } from "./client.ts";
import type { DraftLine } from "./drafts.ts";
import { type Match, matchMaterials } from "./material-matching.ts";

export type TypedLine = { part: Part; material: string; amount: Decimal };

/** A line as somebody typed it, and which material of the shelf its word means. */
export type LineReading<Line> = Line & { match: Match };

/** Which materials the typed lines mean. Nothing is guessed: what is not sure has to be asked about. */
export async function readLines<Line extends { material: string }>(
  db: Db,
  lines: readonly Line[],
): Promise<LineReading<Line>[]> {
  const matches = await matchMaterials(
    db,
    lines.map(({ material }) => material),
  );
  return lines.map((line) => ({
    ...line,
    match: matches.get(line.material) ?? { kind: "unknown" },
  }));
}

/** What keeps a line from being taken, with the way out; undefined where its material is sure. */
export function doubtOf({
  material,
  match,
}: LineReading<{ material: string }>): string | undefined {
  switch (match.kind) {
    case "sure":
      return undefined;
    case "ask": {
      const names = match.candidates.map(({ material: { name, slug } }) => `${name} (${slug})`);
      return `Which material is “${material}”? It may be ${names.join(", or ")}. Choose one.`;
    }
    case "unknown":
      return `There is no “${material}” on the shelf. Add it there first, or choose another.`;
  }
}

/** The lines pinned to the analyses in use, or undefined where one is not sure. */
export function draftLines(readings: readonly LineReading<TypedLine>[]): DraftLine[] | undefined {
  const lines = readings.flatMap(({ part, amount, match }) => {
    if (match.kind !== "sure") return [];
    const { id, slug, name, inUse } = match.material;
    return [{ part, amount, material: { id, slug, name }, analysis: inUse }];
  });
  return lines.length === readings.length ? lines : undefined;
}

/** A line that is published is there, and can be kept exactly. */
export function faultsOfAmount(amount: Decimal, path: string): { path: string; says: string }[] {
  if (amount.lte(0))
    return [{ path, says: "An amount is more than 0. Leave the line out if there is none of it." }];
  if (amount.gt(1_000_000)) return [{ path, says: "An amount is at most 1000000." }];
  if (amount.decimalPlaces() > 6) return [{ path, says: "At most six decimals." }];
  return [];
}
