import type { Use } from "../chem/chemistry.ts";
import { baseTotal } from "../chem/lines.ts";
import type { FoundLine, FoundRevision } from "../db/revisions.ts";
import type { Standing } from "../db/standing.ts";
import { fitJson } from "./fit-json.ts";
import { noteJson } from "./note-json.ts";
import { offerJson } from "./offer-json.ts";
import { pairJson } from "./pair-json.ts";
import { powderChangeJson } from "./powder-changes.ts";
import { testJson } from "./test-json.ts";
import { tileJson } from "./tiles.ts";
import type { WholeRecipe } from "./whole-recipe.ts";

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

export function recipeJson(given: WholeRecipe) {
  const { recipe, head, standing, tiles, notes, today } = given;
  return {
    slug: recipe.slug,
    name: recipe.name,
    owner: recipe.owner,
    shownTo: recipe.shownTo,
    head: { ...revisionJson(head), chemistry: given.chemistry },
    standing: standingJson(standing, head.use),
    approved: given.approved,
    stock:
      given.stock?.map(({ bucket, litres }) => ({
        bucket: bucket.id,
        name: bucket.name,
        revision: bucket.number,
        is: bucket.is,
        mayUse: bucket.mayUse,
        litres: litres.toFixed(),
      })) ?? null,
    forkedFrom: recipe.forkedFrom,
    trial: given.trial,
    trialsOn: given.trialsOn,
    today: today && powderChangeJson(today),
    tiles: tiles.map(tileJson),
    tests: given.tests.map(testJson),
    fits: given.fits.map((fit) => fitJson(fit, head.chemistry.expansion)),
    pairs: given.pairs.map(pairJson),
    notes: notes.map(noteJson),
    reviews: given.reviews,
    offers: given.offers.map(offerJson),
  };
}

/** `for` is what it was approved for, or what the revision says where nobody approved it. */
export const standingJson = ({ basis: _, ...standing }: Standing, use: Use) => ({
  ...standing,
  for: standing.for ?? use,
});
