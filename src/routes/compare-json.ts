import {
  analysisWords,
  changeWords,
  costWords,
  differenceWords,
} from "../../views/compare/words.ts";
import type { Cost } from "../chem/cost.ts";
import type { Difference } from "../chem/differences.ts";
import type { ComparedSide, Comparison } from "../db/comparisons.ts";
import { standingJson } from "./recipe-json.ts";
import { tileJson } from "./tile-json.ts";

/** Two revisions side by side as JSON: what their page tells, in its words too. */
export const compareJson = (left: ComparedSide, right: ComparedSide, comparison: Comparison) => ({
  left: sideJson(left),
  right: sideJson(right),
  ...comparisonJson(comparison),
});

const sideJson = ({ recipe, revision, standing, tiles, cost }: ComparedSide) => ({
  recipe: { slug: recipe.slug, name: recipe.name },
  number: revision.number,
  digest: revision.digest,
  meltDigest: revision.meltDigest,
  author: revision.author,
  coauthors: revision.coauthors,
  use: revision.use,
  cones: revision.cones,
  atmosphere: revision.atmosphere,
  surface: revision.surface,
  standing: standing ? standingJson(standing, revision.use) : null,
  cost: cost && costJson(cost),
  tiles: tiles.map(tileJson),
});

const costJson = (cost: Cost) => {
  const money = ({ amount, currency }: Cost["known"][number]) => ({
    amount: amount.toDecimalPlaces(4).toFixed(),
    currency,
  });
  return {
    baseGrams: cost.grams.toFixed(),
    total: cost.total && money(cost.total),
    known: cost.known.map(money),
    without: cost.without,
    says: costWords(cost),
  };
};

/** What differs, for whatever shows two revisions. Amounts are percent of the base. */
export const comparisonJson = ({ lines, otherAnalyses, differences, figures }: Comparison) => ({
  lines: lines.map((line) => ({
    part: line.part,
    material: line.material.slug,
    name: line.material.name,
    is: line.is,
    left: line.left?.toDecimalPlaces(6).toFixed() ?? null,
    right: line.right?.toDecimalPlaces(6).toFixed() ?? null,
    by: line.by.toDecimalPlaces(6).toFixed(),
    otherAnalysis: line.otherAnalysis,
    says: changeWords(line),
  })),
  otherAnalyses: otherAnalyses.map(({ material, left, right }) => ({
    material: material.slug,
    name: material.name,
    left: analysisWords(left),
    right: analysisWords(right),
  })),
  differences: differences.map(inWords),
  figures: figures.map(inWords),
});

const inWords = <Of extends string>(difference: Difference<Of>) => ({
  ...difference,
  says: differenceWords(difference),
});
