import type { Decimal } from "decimal.js";
import type { Band } from "../../src/chem/bands.ts";

type Measure = { last: Decimal | null; target: Band | null; within: boolean | null };

/** What a round says of one bucket. */
export type ShownStop = {
  id: string;
  name: string;
  recipe: { slug: string; name: string };
  revision: number;
  litres: Decimal;
  daysSinceStirred: number | null;
  gravity: Measure;
  flow: Measure;
  measuredAt: Date | null;
  proof: { tile: string; on: Date; sinceMix: boolean; deltaE: number | null } | null;
  flags: readonly string[];
  tick: { by: string; at: Date; stirred: boolean; note: string } | null;
};

export type RoundProps = {
  stops: readonly ShownStop[];
  day: string;
  done: number;
  of: number;
  /** What was typed for the bucket that a fault is of. */
  typed: (path: string) => string;
  faults: readonly { path: string; says: string }[];
  /** Makes a key for a form, so that a double tap counts once. */
  newKey: () => string;
};
