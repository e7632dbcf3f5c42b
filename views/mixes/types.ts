import type { Decimal } from "decimal.js";
import type { Finding } from "../../src/chem/chemistry-types.ts";
import type { Difference } from "../../src/chem/differences.ts";
import type { MixCorrection } from "../../src/chem/mix-correction.ts";
import type { Fault } from "../parts/field.tsx";

export type ShownTick = {
  id: string;
  key: string;
  grams: Decimal;
  lot: { id: string; mark: string; supplier: string } | null;
  by: { name: string };
  at: Date;
  undone: { by: string; at: Date } | null;
};

export type ShownLot = {
  id: string;
  mark: string;
  supplier: string;
  boughtAt: Date;
  leftGrams: Decimal;
  recalled: string | null;
  expired: boolean;
};

export type ShownMixLine = {
  n: number;
  part: "base" | "addition";
  material: { slug: string; name: string; hazards: readonly string[] };
  grams: Decimal;
  runningGrams: Decimal;
  put: Decimal | null;
  ticks: readonly ShownTick[];
  lots: readonly ShownLot[];
  coarse: { percent: Decimal; smallestGrams: Decimal } | undefined;
  /** How far off, percent of the line, where that is more than may be. */
  off: Decimal | undefined;
  /** For the next tick of this page. */
  key: string;
};

export type ShownMix = {
  id: string;
  bucket: { id: string; name: string; litres: Decimal };
  recipe: { slug: string; name: string };
  revision: number;
  baseGrams: Decimal;
  totalGrams: Decimal;
  putGrams: Decimal;
  scaleGrams: Decimal;
  waterGrams: Decimal | null;
  by: { name: string };
  at: Date;
  end: {
    is: "finished" | "given up";
    waterGrams: Decimal | null;
    why: string;
    by: string;
    at: Date;
  } | null;
};

export type MixPageProps = {
  mix: ShownMix;
  /** Who reads it, and when it was so. */
  person: string;
  asOf: Date;
  lines: readonly ShownMixLine[];
  tolerancePercent: Decimal;
  /** What to see to before anything else, in words. */
  cautions: readonly string[];
  correction: MixCorrection;
  slurry: { waterGrams: Decimal; litres: Decimal; fits: boolean } | null;
  chemistry: { differences: readonly Difference[]; moves: readonly string[] } | null;
  /** What its powders ask for in the room. */
  handling: readonly Finding[];
  directions: { sieve: string; stirring: string; keepsMonths: number | null } | undefined;
  mayEnd: boolean;
  faults: readonly Fault[];
  /** What was typed in the form of one line, where it has to be looked at again. */
  typedLine: { n: number; grams: string; lot: string } | undefined;
  typedEnds: { waterGrams: string; why: string } | undefined;
};
