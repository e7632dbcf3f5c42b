import { baseTotal } from "../chem/lines.ts";
import type { FoundNote } from "../db/notes.ts";
import type { PowderChange } from "../db/powder-changes.ts";
import type { FoundRecipe } from "../db/recipes.ts";
import type { FoundLine, FoundRevision } from "../db/revisions.ts";
import { standingOf } from "../db/standing.ts";
import type { FoundTile } from "../db/tiles.ts";
import { powderChangeJson } from "./powder-changes.ts";
import { tileJson } from "./tiles.ts";

/** One revision as JSON: decimals as strings, computed quantities as numbers. */
export function revisionJson(revision: FoundRevision) {
  const { id: _, recipeId: __, lines, ...rest } = revision;
  const base = baseTotal(lines);
  return {
    ...rest,
    lines: lines.map((line) => ({
      part: line.part,
      material: line.material.slug,
      name: line.material.name,
      amount: line.amount.toFixed(),
      percentOfBase: line.amount.times(100).div(base).toDecimalPlaces(6).toFixed(),
      analysis: analysisJson(line),
      stillSold: line.material.stillSold,
    })),
  };
}

const analysisJson = ({ analysis }: FoundLine) =>
  analysis && {
    id: analysis.id,
    digest: analysis.digest,
    source: analysis.source,
    measuredOn: analysis.measuredOn,
  };

export function recipeJson(given: {
  recipe: FoundRecipe;
  head: FoundRevision;
  tiles: readonly FoundTile[];
  notes: readonly FoundNote[];
  today: PowderChange | null;
}) {
  const { recipe, head, tiles, notes, today } = given;
  const standing = standingOf(recipe);
  return {
    slug: recipe.slug,
    name: recipe.name,
    owner: recipe.owner,
    shownTo: recipe.shownTo,
    head: revisionJson(head),
    standing: { ...standing, for: head.use },
    forkedFrom: recipe.forkedFrom,
    today: today && powderChangeJson(today),
    tiles: tiles.map(tileJson),
    notes: notes.map(noteJson),
  };
}

export const noteJson = ({ snapshot, ...note }: FoundNote) => ({ ...note, on: snapshot.says });
