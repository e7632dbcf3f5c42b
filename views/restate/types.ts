import type { Oxide } from "../../src/chem/oxides.ts";
import type { Fault } from "../parts/field.tsx";

/** What was typed, by the name of its field. */
export type TypedRestating = {
  text: (name: string) => string;
  /** The slugs that were ticked. */
  shelf: readonly string[];
};

export type Choice = { slug: string; name: string; stillSold: boolean };

type LookAlike = {
  word: string;
  slug: string;
  name: string;
  region: string | null;
  caution: string;
};

/** What a powder is called in the region that was chosen. */
type Called = {
  name: string;
  caution: string;
  also: readonly string[];
  lookAlikes: readonly LookAlike[];
};

export type ShownLine = {
  material: string;
  name: string;
  part: "base" | "addition";
  amount: string;
  analysis?:
    | {
        source: string;
        measuredOn: string | null;
        is: "in use" | "of the lot" | "not this lot";
      }
    | undefined;
  called?: Called | null | undefined;
};

type Amounts = Readonly<Partial<Record<Oxide, number>>>;

type Beside<Of> = { got: Of; wanted: Of | null };
type Cost = { perKilogram: string | null; without: readonly string[] };
type Expansion = { value: number | null; plusMinus: number | null; outside: readonly Oxide[] };

/** Figures of the restated base, each beside that of the one that was wanted. */
export type ShownFigures = {
  loss: Beside<{ value: number; plusMinus: number }>;
  expansion: { models: readonly ({ model: string; name: string } & Beside<Expansion>)[] };
  cost?: ({ currency: string } & Beside<Cost>) | undefined;
};

/** A glaze restated, with what was wanted of it. */
export type ShownRestated = {
  status: "exact" | "nearest" | "none";
  lines: readonly ShownLine[];
  wanted: Amounts;
  counted: readonly Oxide[];
  unity: Amounts | null;
  misses: readonly { oxide: Oxide; wanted: number; got: number; because: string }[];
  worst: number | null;
  withinDoubt: boolean | null;
  because?: string | undefined;
  figures?: ShownFigures | undefined;
  stopped?: "nodes" | "clock" | undefined;
  others: readonly { status: "exact" | "nearest"; lines: readonly ShownLine[]; worst: number }[];
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
  /** Where powders have names of their own. */
  regions: readonly string[];
  /** The models that an expansion can be held to. */
  models: readonly { id: string; name: string }[];
  typed: TypedRestating;
  faults: readonly Fault[];
  found: ShownRestated | undefined;
  /** Whether somebody is signed in, who could publish what comes of it. */
  member: boolean;
  idempotencyKey: string;
};
