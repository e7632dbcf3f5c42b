import type { Oxide } from "../../src/chem/oxides.ts";
import type { Fault } from "../parts/field.tsx";

/** What was typed, by the name of its field. */
export type TypedRestating = {
  text: (name: string) => string;
  /** The slugs that were ticked. */
  shelf: readonly string[];
};

export type Choice = { slug: string; name: string; stillSold: boolean };

type Line = { material: string; name: string; part: "base" | "addition"; amount: string };

type Amounts = Readonly<Partial<Record<Oxide, number>>>;

/** A glaze restated, with what was wanted of it. */
export type ShownRestated = {
  status: "exact" | "nearest" | "none";
  lines: readonly Line[];
  wanted: Amounts;
  counted: readonly Oxide[];
  unity: Amounts | null;
  misses: readonly { oxide: Oxide; wanted: number; got: number; because: string }[];
  worst: number | null;
  withinDoubt: boolean | null;
  because?: string | undefined;
  stopped?: "nodes" | "clock" | undefined;
  others: readonly { status: "exact" | "nearest"; lines: readonly Line[]; worst: number }[];
  leftOut: readonly { material: string; because: string }[];
  recipe: {
    slug: string;
    name: string;
    number: number;
    cones: { low: string; high: string };
  } | null;
};

export type RestatePageProps = {
  materials: readonly Choice[];
  typed: TypedRestating;
  faults: readonly Fault[];
  found: ShownRestated | undefined;
  /** Whether somebody is signed in, who could publish what comes of it. */
  member: boolean;
};
