import type { Decimal } from "decimal.js";
import type { BlendKind } from "../../src/chem/blends.ts";
import type { Chemistry } from "../../src/chem/chemistry-types.ts";
import type { Cone } from "../../src/chem/cones.ts";
import type { HungPhoto } from "../tiles/photo.tsx";

type By = { id: string; name: string };

/** What came of a point in one firing. */
export type ShownResult = {
  id: string;
  body: { slug: string; name: string } | null;
  firing: { id: string; name: string } | null;
  cone: Cone | null;
  surface: string;
  defects: readonly string[];
  remark: string;
  by: By;
  at: Date;
  photos: readonly HungPhoto[];
  withdrawn: { why: string; at: Date; by: string } | null;
};

export type ShownTrialPoint = {
  n: number;
  at: readonly number[];
  named: readonly { name: string; part: "base" | "addition"; amount: Decimal }[];
  chemistry: Chemistry;
  results: readonly ShownResult[];
  recipes: readonly { slug: string; name: string }[];
};

/** A trial as its pages need it. */
export type ShownTrial = {
  id: string;
  /** What its tiles carry before their number. */
  code: string;
  name: string;
  kind: BlendKind;
  measure: "dry weight" | "slurry volume";
  about: string;
  cone: Cone | null;
  corners: readonly { says: string; recipe?: string | undefined }[];
  gravities: readonly string[];
  by: By;
  at: Date;
  points: readonly ShownTrialPoint[];
};

export const trialHref = ({ id }: { id: string }, n?: number): string =>
  n === undefined ? `/trials/${id}` : `/trials/${id}/points/${n}`;
