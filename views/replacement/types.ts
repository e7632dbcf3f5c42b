import type { Decimal } from "decimal.js";
import type { Difference, FigureName } from "../../src/chem/differences.ts";
import type { Move } from "../../src/chem/moves.ts";
import type { Fault } from "../parts/field.tsx";

type Line = {
  part: "base" | "addition";
  material: { slug: string; name: string };
  amount: Decimal;
};

/** A recipe with what would become of it. */
export type ShownReplaced = {
  recipe: { slug: string; name: string; owner: { name: string } };
  head: { number: number; lines: readonly Line[] };
  is: "exact" | "nearest" | "none" | "by hand" | "late";
  because?: string;
  weighed?: readonly Line[];
  misses?: readonly { oxide: string; because: string }[];
  nearer?: boolean;
  beside: {
    worst: Difference | null;
    toldApart: readonly Difference[];
    figures: readonly Difference<FigureName>[];
    moves: readonly Move[];
  } | null;
  approved: { number: number; for: string } | null;
};

export type ReplacementChoices = {
  asked: {
    reason: "ends" | "lot";
    with: readonly string[];
    analysis?: string | undefined;
    most: number;
    after?: string | undefined;
  };
  offered: readonly { slug: string; name: string }[];
  analysis: { id: string; source: string; measuredOn: string | null; inUse: boolean } | null;
};

export type ReplacementPageProps = {
  material: { slug: string; name: string };
  analyses: readonly { id: string; source: string; measuredOn: string | null; is: string }[];
  /** What could stand in: everything else with an analysis. */
  shelf: readonly { slug: string; name: string; stillSold: boolean }[];
  choices: ReplacementChoices;
  items: readonly ShownReplaced[];
  next: string | null;
  mayAct: boolean;
  faults: readonly Fault[];
  message: string;
  /** Slugs of what somebody ticked, where this is their page again. */
  ticked: readonly string[] | undefined;
  idempotencyKey: string;
};

export const replacementHref = (slug: string): string => `/materials/${slug}/replacement`;

/** Where the recipes of a material are restated for another of its analyses. */
export const analysisChangesHref = (slug: string, analysisId: string): string =>
  `${replacementHref(slug)}?reason=lot&analysis=${analysisId}`;
