import type { Decimal } from "decimal.js";
import type { Cone } from "../../src/chem/cones.ts";
import type { Merged } from "../../src/chem/merge-lines.ts";

/** An offer as lists and its own page show it. */
export type ShownOffer = {
  id: string;
  recipe: { slug: string; name: string };
  from: { slug: string; name: string; number: number };
  base: { slug: string; name: string; number: number };
  why: string;
  by: { name: string };
  at: Date;
  answer: {
    accepted: boolean;
    why: string;
    by: { name: string };
    at: Date;
    revision: number | null;
  } | null;
};

export type MergeLine = {
  part: "base" | "addition";
  amount: Decimal;
  line: {
    part: "base" | "addition";
    material: { slug: string; name: string };
    analysis: { source: string; measuredOn: string | null } | null;
  };
};

export type ShownMerge = {
  lines: readonly Merged<MergeLine>[];
  fields: {
    use: Merged<string>;
    cones: Merged<{ low: Cone; high: Cone }>;
    atmosphere: Merged<string>;
    surface: Merged<string>;
    about: Merged<string>;
  };
};
