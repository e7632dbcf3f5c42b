import type { Decimal } from "decimal.js";
import type { Band } from "../../src/chem/bands.ts";
import type { BucketAdvice } from "../../src/chem/bucket-advice.ts";
import type { Slurry } from "../../src/chem/slurry.ts";

/** What somebody measured of a bucket; what they did not measure is null. */
export type ShownReading = {
  id: string;
  specificGravity: Decimal | null;
  litres: Decimal | null;
  celsius: Decimal | null;
  flowSeconds: Decimal | null;
  coatMm: Decimal | null;
  stirred: boolean;
  note: string;
  by: string;
  at: Date;
  /** What it says of the dry powder. */
  dry: Slurry | null;
};

/** How a bucket should be and how to use it. What nobody said is null or empty. */
export type ShownDirections = {
  gravity: Band | null;
  flow: Band | null;
  coat: Band | null;
  body: { slug: string; name: string } | null;
  bisqueCone: string | null;
  dipSeconds: Decimal | null;
  coats: number | null;
  footMm: Decimal | null;
  catchDish: boolean;
  sieve: string;
  stirring: string;
  keepsMonths: number | null;
  ask: string;
  by: string;
  at: Date;
};

export type ShownAddition = {
  what: "water" | "water off" | "flocculant" | "deflocculant";
  named: string;
  amount: Decimal;
  unit: string;
  by: string;
  at: Date;
};

/** What of a bucket's care its page shows. */
export type ShownCare = {
  /** Newest first. */
  readings: readonly ShownReading[];
  furtherReadings: string | null;
  advice: BucketAdvice | null;
  directions: ShownDirections | null;
  additions: readonly ShownAddition[];
  powders: {
    dryGravity: { value: Decimal; says: string };
    dissolves: boolean;
    hazards: readonly string[];
  };
};

export const troubles = ["contaminated", "lumpy", "thin", "wrong colour", "no label"] as const;

export type ShownReport = {
  id: string;
  trouble: (typeof troubles)[number];
  note: string;
  by: string;
  at: Date;
  answer: { done: string; by: string; at: Date } | null;
};
