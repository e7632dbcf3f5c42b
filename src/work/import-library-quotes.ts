import { by, type Placed, type Rows, words } from "./import-library-rows.ts";

/** What somebody elsewhere said or found, in words for a note. */
export type Quotation = { place: string; text: string };

const longest = 7900;
const mostOfOneRecipe = 200;

/** A text in two, the first with `most` characters at the most and none of them halved. */
export function cutAt(text: string, most: number): [string, string] {
  if (text.length <= most) return [text, ""];
  const half = /[\uD800-\uDBFF]/.test(text.charAt(most - 1));
  const at = half ? most - 1 : most;
  return [text.slice(0, at), text.slice(at)];
}

type Of = { studio: string; people: ReadonlyMap<string, string> };

/**
 * For a recipe and its newest revision: reviews of what it says, tiles and tests of its melt, and the
 * notes on any of its revisions, each worded as a quotation. What was withdrawn or removed is left out.
 */
export function quotesOf(rows: Rows, { studio, people }: Of) {
  const revisionOf = new Map(rows.revisions.map((row) => [words(row.id), row]));
  const gone = (of: readonly Placed[], field: string) =>
    new Set(of.map((row) => words(row[field])));
  const tilesGone = gone(rows.tileWithdrawals, "tileId");
  const testsGone = gone(rows.testWithdrawals, "testId");
  const melt = (row: Placed) => words(revisionOf.get(words(row.revisionId))?.meltDigest);
  const grouped = (of: readonly Placed[], keyOf: (row: Placed) => string) =>
    by(
      of.map((row) => ({ ...row, groupedBy: keyOf(row) })),
      "groupedBy",
    );
  const tiles = grouped(
    rows.tiles.filter(({ id, overId }) => overId === null && !tilesGone.has(words(id))),
    melt,
  );
  const tests = grouped(
    rows.tests.filter(({ id }) => !testsGone.has(words(id))),
    melt,
  );
  const figures = by(rows.testResults, "testId");
  const reviews = grouped(rows.reviews, (row) =>
    words(revisionOf.get(words(row.revisionId))?.digest),
  );
  const notes = by(rows.notes, "recipeId");
  const texts = new Map([
    ...rows.noteTexts.map((row) => [words(row.noteId), row.text] as const),
    ...rows.noteEdits.map((row) => [words(row.noteId), row.text] as const),
  ]);

  const from = (row: Placed) => {
    const who = people.get(words(row.by)) ?? "somebody";
    return `Quoted from ${studio} (${who}, ${words(row.at).slice(0, 10)})`;
  };
  const quote = (row: Placed, says: string): Quotation => {
    const plain = `${from(row)}: ${says.trim()}`.normalize("NFC").replace(/[^\P{Cc}\n\t]/gu, " ");
    const [text, rest] = cutAt(plain, longest);
    return { place: row.place, text: rest === "" ? text : `${text} … (cut off here)` };
  };
  const tileSays = (tile: Placed) =>
    [
      `a tile fired there at cone ${words(tile.cone)} in ${words(tile.atmosphere)}`,
      tile.clay !== "" && `on ${words(tile.clay)}`,
      tile.surface !== "" && `came out ${words(tile.surface)}`,
      Array.isArray(tile.defects) && tile.defects.length > 0 && `with ${tile.defects.join(", ")}`,
      tile.remark !== "" && words(tile.remark),
    ]
      .filter(Boolean)
      .join("; ");
  const testSays = (test: Placed) => {
    const found = (figures.get(words(test.id)) ?? []).map(
      ({ element, qualifier, value, unit, specimen }) =>
        `${words(element)} ${words(qualifier)} ${words(value)} ${words(unit)} ${words(specimen)}`.trim(),
    );
    return [
      `${words(test.kind)} test there: ${words(test.outcome)}`,
      words(test.method),
      test.laboratory !== "" && `by ${words(test.laboratory)}`,
      test.report !== "" && `report ${words(test.report)}`,
      found.join(", "),
      words(test.remark),
    ]
      .filter(Boolean)
      .join("; ");
  };
  const reviewSays = ({ verdict, for: use, reasons }: Placed) =>
    `their review: ${words(verdict)}${use === null ? "" : ` as ${words(use)}`}. ${words(reasons)}`;
  const noteSays = (note: Placed) => {
    const text = texts.get(words(note.id));
    if (typeof text !== "string") return undefined;
    return note.blocking === true ? `their objection: ${text}` : text;
  };

  return (recipeId: string, head: Placed): Quotation[] => {
    const own = words(head.meltDigest);
    return [
      ...(reviews.get(words(head.digest)) ?? [])
        .filter((row) => row.recipeId === recipeId)
        .map((row) => quote(row, reviewSays(row))),
      ...(tests.get(own) ?? []).map((row) => quote(row, testSays(row))),
      ...(tiles.get(own) ?? []).map((row) => quote(row, tileSays(row))),
      ...(notes.get(recipeId) ?? []).flatMap((row) => {
        const says = noteSays(row);
        return says === undefined ? [] : [quote(row, says)];
      }),
    ].slice(0, mostOfOneRecipe);
  };
}
