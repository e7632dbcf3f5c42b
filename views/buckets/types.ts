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
  /** For trying out what nobody approved. */
  forTest: boolean;
  is: "open" | "hold" | "empty";
  /** What speaks against using it, worst first. */
  cautions: readonly string[];
  mayUse: { food: boolean; decorative: boolean };
  /** How what is in it is further from its revision than an approval bears. */
  moved: readonly string[];
  /** That nobody closed: its own, and those of lots that are in it. */
  recalls: readonly { id: string; of: "lot" | "bucket"; at: Date }[];
  /** That the recipe has moved on, in words. */
  newer: string | null;
  standing: { is: StandingIs; for: Use | null; because: readonly string[] };
  addedBy: string;
  addedAt: Date;
  changes: readonly { is: "open" | "hold" | "empty"; why: string; by: string; at: Date }[];
};

/** What it is approved for: what its revision is, as long as that is what is in it. */
export const approvedFor = ({ standing, moved }: ShownBucket): Use | undefined =>
  standing.is === "approved" && moved.length === 0 ? (standing.for ?? undefined) : undefined;

/** The straight answer to "may I use it?". */
export function useWords({ mayUse, forTest }: Pick<ShownBucket, "mayUse" | "forTest">): string {
  if (mayUse.food)
    return "Yes, as its revision is approved: for functional ware, fired as it says.";
  if (mayUse.decorative)
    return "On decorative ware only: nowhere food, drink, lips or cutlery touch.";
  return forTest ? "For test tiles only." : "No.";
}

export const stateWords = { open: "open", hold: "on hold", empty: "empty" } as const;
