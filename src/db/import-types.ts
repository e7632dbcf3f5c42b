import type { Decimal } from "decimal.js";
import type { Fault } from "../chem/analysis.ts";
import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Part } from "../chem/lines.ts";
import type { GivenAnalysis } from "./analyses.ts";
import type { Atmosphere } from "./drafts.ts";

/** `place` is where something stands in the file: `recipes.3`, `row 12`. */
type Placed = { place: string };

/** What a file says of a powder: what it would be where it is new here, and its analyses. */
export type MaterialInFile = Placed & {
  name: string;
  region: string;
  kind: string;
  about: string;
  hazards: readonly string[];
  names: readonly { name: string; region: string; caution: string }[];
  analyses: readonly (Placed & { given: GivenAnalysis })[];
};

export type LineInFile = Placed & { part: Part; material: string; amount: Decimal };

/** What somebody elsewhere said or found, worded as a quotation. It never counts here. */
export type QuoteInFile = Placed & { text: string };

export type RecipeInFile = Placed & {
  name: string;
  maker: string;
  source: string;
  lines: readonly LineInFile[];
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: Atmosphere;
  surface: string;
  about: string;
  quotes: readonly QuoteInFile[];
};

/** An entry that cannot be taken as it stands. */
export type RefusedInFile = Placed & {
  noun: "material" | "analysis" | "recipe";
  name: string;
  faults: Fault[];
};

export const fileKinds = ["json", "recipes as csv", "analyses as csv", "library"] as const;

/** A file from elsewhere as it was read, before anything of it was held against this studio. */
export type FileRead = {
  kind: (typeof fileKinds)[number];
  materials: readonly MaterialInFile[];
  recipes: readonly RecipeInFile[];
  refused: readonly RefusedInFile[];
  /** What the file has and an import never brings, in words. */
  leftBehind: readonly string[];
};
