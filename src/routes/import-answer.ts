import { bringsOf, faultsOfPlan } from "../db/import-faults.ts";
import type { Chosen, Possible } from "../db/import-matching.ts";
import type { ImportPlan } from "../db/import-plan-types.ts";
import type { Before } from "../db/import-taking.ts";
import type { FoundImport, ImportRow } from "../db/imports.ts";

const possibleJson = ({ material, how, because, analysis, cautions, takenBack }: Possible) => ({
  material: { slug: material.slug, name: material.name },
  how,
  because,
  analysis: analysis && { source: analysis.source, measuredOn: analysis.measuredOn },
  cautions,
  ...(takenBack && { takenBack }),
});

export const wordOf = (chosen: Chosen | null): string =>
  chosen === null ? "" : chosen.is === "material" ? chosen.possible.material.slug : chosen.is;

type Shown = {
  file: { name: string; digest: string; kind: string };
  plan: ImportPlan;
  before: readonly Before[];
  leaveOutRefused: boolean;
};

/** Line by line what taking the file in would do; `matches` is ready to be sent back. */
export function planJson({ file, plan, before, leaveOutRefused }: Shown) {
  return {
    file,
    takenInBefore: before,
    ready: faultsOfPlan(plan, { leaveOutRefused }).length === 0,
    brings: bringsOf(plan),
    matches: Object.fromEntries(
      plan.names.flatMap(({ name, chosen }) =>
        chosen === null ? [] : [[name, wordOf(chosen)] as const],
      ),
    ),
    names: plan.names.map(({ name, inRecipes, possible, chosen, said, fault }) => ({
      name,
      inRecipes,
      is: wordOf(chosen) || null,
      said,
      fault,
      possible: possible.map(possibleJson),
    })),
    materials: plan.materials
      .filter(({ is }) => is === "new")
      .map(({ place, name, as }) => ({ place, name, is: "new", as })),
    analyses: plan.analyses.map(({ place, material, is, given }) => ({
      place,
      material,
      source: given.source,
      measuredOn: given.measuredOn,
      is,
    })),
    recipes: plan.recipes.map(({ place, name, is, as, here, says, faults, asks, recipe }) => ({
      place,
      name,
      is,
      as,
      here,
      says,
      cones: recipe?.cones ?? null,
      errors: faults,
      asks,
    })),
    notes: plan.quotes,
    refused: plan.refused.map(({ noun, place, name, faults }) => ({
      noun,
      place,
      name,
      errors: faults,
    })),
    leftBehind: plan.leftBehind,
  };
}

export const importRowJson = ({ by, ...row }: ImportRow) => ({ ...row, by: by.name });

export const importJson = ({ recipes, materials, analyses, notes, ...row }: FoundImport) => ({
  ...importRowJson(row),
  recipes: recipes.map(({ id: _, ...recipe }) => recipe),
  materials: materials.map(({ id: _, ...material }) => material),
  analyses,
  notes,
});
