import type { Decimal } from "decimal.js";
import type { Chemistry, Use } from "../../src/chem/chemistry-types.ts";
import type { Cone } from "../../src/chem/cones.ts";
import type { Part } from "../../src/chem/lines.ts";

export type ShownLine = {
  position: number;
  part: Part;
  material: { slug: string; name: string; stillSold: boolean; hazards: readonly string[] };
  analysis: { source: string; measuredOn: string | null } | null;
  amount: Decimal;
};

export type ShownRevision = {
  number: number;
  basedOn: number | null;
  author: { name: string };
  coauthors: readonly { name: string }[];
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: string;
  surface: string;
  about: string;
  message: string;
  publishedAt: Date;
  lines: readonly ShownLine[];
  chemistry: Chemistry;
};

export type ShownRecipe = {
  slug: string;
  name: string;
  owner: { name: string };
  head: number;
  shownTo: "private" | "studio" | "public";
  forkedFrom: { slug: string; name: string; number: number } | null;
  withdrawn: { why: string; at: Date; by: string } | null;
  mayRevise: boolean;
};

export type ShownNote = {
  id: string;
  revision: number;
  anchor: { kind: "whole" | "line" | "oxide" | "tile"; key: string | null };
  snapshot: { says: string };
  /** null where a manager had it removed. */
  text: string | null;
  by: { id: string; name: string };
  at: Date;
  blocking: boolean;
  closed: { by: { name: string }; at: Date; overruled: boolean } | null;
  /** All that it ever said, the words of now last. */
  versions: readonly { text: string; at: Date }[];
  replies: readonly ShownNote[];
  /** How a note came that was said elsewhere; it counts for nothing. */
  quoted?: string | null;
  /** How its place reads now, where that is otherwise than it was. */
  moved: string | null;
};

/** What to weigh for a base of so many grams; `coarse` names lines that the scale is too coarse for. */
export type BatchSheet = {
  lines: readonly { line: ShownLine; grams: Decimal; runningGrams: Decimal }[];
  baseGrams: Decimal;
  totalGrams: Decimal;
  scaleGrams: Decimal;
  coarse: readonly { line: number; percent: Decimal; smallestGrams: Decimal }[];
};

/** The batch as it was asked for, its sheet, or what is wrong with what was typed. */
export type Batch = {
  grams: string;
  /** The same in pounds, for whoever weighs so. */
  pounds: string;
  scaleGrams: string;
  says: string | undefined;
  sheet: BatchSheet | undefined;
};
