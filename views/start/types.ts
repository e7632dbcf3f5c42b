import type { Decimal } from "decimal.js";
import type { UseIs } from "../parts/standing.tsx";
import type { LeftOutWhy, Making } from "./makings.ts";

export type ShownGlaze = {
  slug: string;
  name: string;
  owner: { name: string };
  number: number;
  for: UseIs;
  cones: { low: string; high: string };
  atmosphere: string;
  surface: string;
  tested: readonly string[];
  tile: {
    id: string;
    cone: string;
    clay: string;
    onBody: boolean;
    defects: readonly string[];
    picture: { sha256: string; alt: string } | null;
  } | null;
  /** Its buckets that may be used for this now; empty where none may, or where nobody is told. */
  buckets: readonly { id: string; name: string; litres: Decimal }[];
  /** Why its other buckets may not, in words, each after the bucket's name. */
  notNow: readonly string[];
};

export type Answered = {
  making: Making;
  cone: string;
  body: { slug: string; name: string; cones: { low: string; high: string }; fits: boolean } | null;
  bodies: readonly { slug: string; name: string }[];
  /** null for a visitor, who is not told of buckets. */
  inStock: readonly ShownGlaze[] | null;
  approved: readonly ShownGlaze[];
  leftOut: readonly { why: LeftOutWhy; recipes: number }[];
};
