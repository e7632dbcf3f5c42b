import type { Finding, Quantity } from "../../src/chem/chemistry-types.ts";
import type { Cone } from "../../src/chem/cones.ts";
import type { Difference, FigureName } from "../../src/chem/differences.ts";
import type { Oxide } from "../../src/chem/oxides.ts";
import type { Moles } from "../../src/chem/restating.ts";
import type { ShownChange } from "../compare/types.ts";
import type { Fault } from "../parts/field.tsx";

export type ShownRow = {
  oxide: Oxide;
  now: Quantity;
  wanted: number;
  moved: boolean;
  held: boolean;
  within: number;
  step: number;
};

type Line = { material: string; name: string; part: "base" | "addition"; amount: string };
type ComeAndGone = { come: readonly Finding[]; go: readonly Finding[] };

/** What the moves lead to. */
export type ShownMoved =
  | { status: "none"; because: string }
  | {
      status: "reached" | "nearest";
      stopped?: "nodes" | "clock" | undefined;
      lines: readonly Line[];
      unity: Readonly<Record<string, Quantity>>;
      misses: readonly { oxide: Oxide; wanted: number; got: number; because: string }[];
      withinDoubt: boolean;
      changes: readonly ShownChange[];
      differences: readonly Difference[];
      figures: readonly Difference<FigureName>[];
      findings: ComeAndGone;
      handling: ComeAndGone;
    };

export type ShownNeighbour = {
  slug: string;
  name: string;
  owner: { name: string };
  number: number;
  use: "functional" | "decorative";
  cones: { low: Cone; high: Cone };
  atmosphere: string;
  surface: string;
  unity: Moles;
  distance: number;
};

export type ShownNeighbours = {
  to: "moved" | "as it is";
  of: Moles;
  items: readonly ShownNeighbour[];
};

export type MovesPageProps = {
  recipe: { slug: string; name: string };
  revision: { number: number; cones: { low: string; high: string } };
  state: {
    revision?: number | undefined;
    moves: readonly { oxide: Oxide; to: number }[];
    held: readonly Oxide[];
    allSold: boolean;
  };
  rows: readonly ShownRow[];
  others: readonly Oxide[];
  materials: readonly { slug: string; name: string; stillSold: boolean; ticked: boolean }[];
  leftOut: readonly { because: string }[];
  moved: ShownMoved | undefined;
  neighbours: ShownNeighbours;
  undo: string | undefined;
  member: boolean;
  idempotencyKey: string;
  /** What stands in the boxes, by oxide. */
  typed: Readonly<Record<string, string>>;
  faults: readonly Fault[];
};
