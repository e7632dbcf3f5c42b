import type { Decimal } from "decimal.js";
import type { Use } from "../../src/chem/chemistry-types.ts";
import type { StandingIs } from "../parts/standing.tsx";

export type ShownBucket = {
  id: string;
  name: string;
  litres: Decimal;
  recipe: { slug: string; name: string };
  number: number;
  use: Use;
  is: "open" | "hold" | "empty";
  /** What speaks against using it, worst first. */
  cautions: readonly string[];
  /** That the recipe has moved on, in words. */
  newer: string | null;
  standing: { is: StandingIs; for: Use | null; because: readonly string[] };
  addedBy: string;
  addedAt: Date;
  changes: readonly { is: "open" | "hold" | "empty"; why: string; by: string; at: Date }[];
};

/** What its revision is approved for; nothing where it is not, whatever it was before. */
export const approvedFor = ({ standing }: ShownBucket): Use | undefined =>
  standing.is === "approved" ? (standing.for ?? undefined) : undefined;

export const stateWords = { open: "open", hold: "on hold", empty: "empty" } as const;
