import type { Analysis } from "../../src/chem/analysis.ts";
import type { Fault } from "../parts/field.tsx";

export type PossiblePowder = {
  material: { slug: string; name: string };
  how: "name" | "elsewhere" | "likeness" | "chosen";
  because: string;
  analysis: { source: string; measuredOn: string | null; analysis: Analysis } | null;
  cautions: readonly string[];
  takenBack: boolean;
};

export type NameToMatch = {
  name: string;
  inRecipes: number;
  described: boolean;
  possible: readonly PossiblePowder[];
  /** What is chosen, by somebody or beforehand: a slug, `new`, `leave out` or nothing. */
  is: string;
  said: boolean;
};

export type PlannedRecipe = {
  place: string;
  name: string;
  is: "draft" | "here already" | "twice" | "left out" | "refused" | "waits";
  as: string | null;
  here: { slug: string; name: string } | null;
  says: string;
  faults: readonly Fault[];
  asks: readonly string[];
  recipe: { cones: { low: string; high: string } } | null;
};

export type ShownPlan = {
  materials: readonly { place: string; name: string; as: string; is: string }[];
  analyses: readonly {
    place: string;
    material: string;
    is: string;
    given: { source: string; measuredOn: string | null };
  }[];
  recipes: readonly PlannedRecipe[];
  quotes: readonly { place: string; recipe: string; text: string }[];
  refused: readonly { noun: string; place: string; name: string; faults: readonly Fault[] }[];
  leftBehind: readonly string[];
};

export type Brings = { recipes: number; materials: number; analyses: number; notes: number };
