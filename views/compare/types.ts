import type { Decimal } from "decimal.js";
import type { Use } from "../../src/chem/chemistry-types.ts";
import type { Cone } from "../../src/chem/cones.ts";
import type { Cost } from "../../src/chem/cost.ts";
import type { Difference, FigureName } from "../../src/chem/differences.ts";
import type { StandingIs } from "../parts/standing.tsx";
import type { GalleryTile } from "../tiles/gallery.tsx";

type Pinned = { source: string; measuredOn: string | null } | null;

export type ShownChange = {
  part: "base" | "addition";
  material: { slug: string; name: string };
  is: "added" | "removed" | "changed" | "same";
  left: Decimal | null;
  right: Decimal | null;
  by: Decimal;
  otherAnalysis: boolean;
};

/** One of two revisions side by side. */
export type ShownSide = {
  recipe: { slug: string; name: string };
  revision: {
    number: number;
    author: { name: string };
    coauthors: readonly { name: string }[];
    use: Use;
    cones: { low: Cone; high: Cone };
    atmosphere: string;
    surface: string;
  };
  standing: { is: StandingIs; for: Use | null; because: readonly string[] } | undefined;
  tiles: readonly GalleryTile[];
  cost: Cost | null;
};

export type ShownComparison = {
  lines: readonly ShownChange[];
  otherAnalyses: readonly {
    material: { slug: string; name: string };
    left: Pinned;
    right: Pinned;
  }[];
  differences: readonly Difference[];
  figures: readonly Difference<FigureName>[];
};

/** "Slack Water 2": short enough for the head of a column. */
export const sideName = ({ recipe, revision }: Pick<ShownSide, "recipe" | "revision">): string =>
  `${recipe.name} ${revision.number}`;
