import { changeWords, differenceWords } from "../../views/compare/words.ts";
import type { MovesSheet } from "./moves-sheet.ts";
import type { Moved } from "./moves-solving.ts";
import { neighbourJson } from "./nearest-json.ts";

/** The page of moves as JSON: the formula as it is and as it is wanted, and what comes of it. */
export const movesJson = ({ recipe, revision, state, rows, others, ...sheet }: MovesSheet) => ({
  recipe,
  number: revision.number,
  moves: state.moves,
  unity: Object.fromEntries(rows.map(({ oxide, ...row }) => [oxide, row])),
  others,
  shelf: sheet.materials.filter(({ ticked }) => ticked).map(({ slug }) => slug),
  allSold: state.allSold,
  leftOut: sheet.leftOut,
  found: sheet.moved ? movedJson(sheet.moved) : null,
  undo: sheet.undo ?? null,
  nearest: {
    to: sheet.neighbours.to,
    items: sheet.neighbours.items.map((each) => neighbourJson(each, sheet.neighbours.of)),
  },
});

function movedJson(moved: Moved) {
  if (moved.status === "none") return moved;
  const { differences, figures, changes, whole: _, ...rest } = moved;
  return {
    ...rest,
    changes: changes.map(({ material, left, right, by, ...line }) => ({
      ...line,
      material: material.slug,
      name: material.name,
      left: left?.toDecimalPlaces(6).toFixed() ?? null,
      right: right?.toDecimalPlaces(6).toFixed() ?? null,
      by: by.toDecimalPlaces(6).toFixed(),
      says: changeWords({ ...line, by }),
    })),
    differences: differences.map((each) => ({ ...each, says: differenceWords(each) })),
    figures: figures.map((each) => ({ ...each, says: differenceWords(each) })),
  };
}
