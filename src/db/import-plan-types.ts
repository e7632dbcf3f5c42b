import type { Fault } from "../chem/analysis.ts";
import type { Draft } from "./drafts.ts";
import type { NameInFile } from "./import-matching.ts";
import type { MaterialInFile, RecipeInFile, RefusedInFile } from "./import-types.ts";

/** What becomes of a powder of the file. */
export type MaterialPlan = {
  place: string;
  name: string;
  /** New, under the name `as`, or one that is here already. */
  is: "new" | "here" | "left out" | "waits";
  as: string;
  /** Where it is new: what the file says of it, if it says more than a name. */
  described: MaterialInFile | null;
  /** Where it is here. */
  materialId: string | null;
  slug: string | null;
};

/** What becomes of an analysis of the file. A new material's first is in use; every other waits. */
export type AnalysisPlan = {
  place: string;
  material: string;
  is: "in use" | "waits for a manager" | "here already" | "left out" | "waits";
  given: MaterialInFile["analyses"][number]["given"];
  materialId: string | null;
};

/** What becomes of a recipe of the file. */
export type RecipePlan = {
  place: string;
  name: string;
  is: "draft" | "here already" | "twice" | "left out" | "refused" | "waits";
  /** The name that it would get: never one that is taken. */
  as: string | null;
  here: { slug: string; name: string } | null;
  says: string;
  faults: Fault[];
  /** What the chemistry asks about it: a cone that does not fit, what stops it. */
  asks: string[];
  recipe: RecipeInFile | null;
  draft: Draft | null;
};

export type QuotePlan = { place: string; recipe: string; text: string };

/** Line by line what taking a file in would do. */
export type ImportPlan = {
  names: NameInFile[];
  materials: MaterialPlan[];
  analyses: AnalysisPlan[];
  recipes: RecipePlan[];
  quotes: QuotePlan[];
  refused: readonly RefusedInFile[];
  leftBehind: readonly string[];
};
