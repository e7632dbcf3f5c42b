import type { Decimal } from "decimal.js";
import type { Cone } from "../../src/chem/cones.ts";
import type { ShownDirections } from "../buckets/care-types.ts";
import type { MarkIs } from "../labels/mark.tsx";
import type { StandingIs, UseIs } from "../parts/standing.tsx";
import type { HungPhoto } from "../tiles/photo.tsx";

type PairedGlaze = { slug: string; name: string; number: number };

/** All that whoever stands before a bucket with a phone is told. */
export type ShownScan = {
  bucket: { id: string; name: string; recipe: { slug: string; name: string }; number: number };
  /** Somebody outside the studio: no names, and nothing to tick. */
  forVisitor: boolean;
  mark: MarkIs;
  /** What speaks against using it, worst first. */
  because: readonly string[];
  card: {
    cones: { low: Cone; high: Cone };
    atmosphere: string;
    directions: ShownDirections | null;
    powders: readonly ShownPowder[];
  };
  allHazards: readonly string[];
  dissolves: boolean;
  /** That it ran on a tile. */
  runs: boolean;
  measured: {
    specificGravity: Decimal | null;
    flowSeconds: Decimal | null;
    by: string;
    at: Date;
  } | null;
  stirredAt: Date | null;
  mixedAt: Date | null;
  tiles: readonly {
    id: string;
    cone: Cone;
    body: { name: string } | null;
    photos: readonly HungPhoto[];
  }[];
  pairs: readonly {
    id: string;
    over: PairedGlaze;
    under: PairedGlaze;
    standing: { is: StandingIs; for: UseIs | null };
  }[];
  uses: { times: number; people: number };
  /** The reader's own newest use, while they may take it back. */
  ownUse: { id: string; what: string; at: Date } | null;
  /** Why nobody may tick a use now. */
  refused: string | null;
};

export type ShownPowder = {
  name: string;
  sheet: { signal: "danger" | "warning" | "none"; statements: readonly string[] } | null;
};
