import type { Decimal } from "decimal.js";
import type { WeightUnit } from "../../src/chem/batch-amounts.ts";
import type { Chemistry, Use } from "../../src/chem/chemistry-types.ts";
import type { Cone } from "../../src/chem/cones.ts";
import type { Part } from "../../src/chem/lines.ts";
import type { Oxide } from "../../src/chem/oxides.ts";
import type { Hazard } from "../parts/hazard-words.ts";
import type { StandingIs } from "../parts/standing.tsx";
import type { ShownTest } from "../tests/types.ts";
import type { GalleryTile } from "../tiles/gallery.tsx";

export type Temperature = "C" | "F";

/** Another powder that goes by one of this one's words. */
export type ShownLookAlike = { word: string; name: string; region: string | null; caution: string };

/** What a powder is called where the reader buys. */
export type ShownCalled = {
  name: string;
  caution: string;
  also: readonly string[];
};

/** An analysis that recipes of the handout count on. */
export type ShownAnalysis = {
  source: string;
  measuredOn: string | null;
  /** Percent of the powder as weighed, the largest first. */
  oxides: readonly { oxide: Oxide; percent: number }[];
  loss: number;
  /** The recipes that count on it. */
  of: readonly string[];
};

export type ShownPowder = {
  slug: string;
  name: string;
  part: Part;
  stillSold: boolean;
  /** Undefined where no region was asked for, null where no name there is on record. */
  called: ShownCalled | null | undefined;
  /** What it is called elsewhere, where no region was asked for. */
  elsewhere: readonly { name: string; region: string }[];
  lookAlikes: readonly ShownLookAlike[];
  analyses: readonly ShownAnalysis[];
  /** The recipes that take it without an analysis. */
  unknownIn: readonly string[];
  /** For the test and for the tub of every recipe, rounded up. */
  buy: { testGrams: Decimal; tub: Decimal };
};

export type ShownLine = {
  slug: string;
  name: string;
  part: Part;
  amount: Decimal;
  percent: Decimal;
  testGrams: Decimal;
  /** In the unit of the tub. */
  tub: Decimal;
};

export type ShownPair = {
  over: { name: string; number: number };
  under: { name: string; number: number };
  about: string;
  standing: { is: StandingIs; for: Use | null };
};

/** A revision as it is handed out. */
export type ShownPiece = {
  /** A word of its own on the page, for links to it. */
  key: string;
  recipe: { slug: string; name: string; owner: { name: string } };
  number: number;
  publishedAt: Date;
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: string;
  surface: string;
  about: string;
  standing: { is: StandingIs; for: Use | null; because: readonly string[] };
  /** What it may be used for, in sentences. */
  mayUse: { food: boolean; says: readonly string[] };
  /** That a newer revision exists; null where this is the newest. */
  newer: string | null;
  recalled: boolean;
  lines: readonly ShownLine[];
  test: { baseGrams: Decimal; totalGrams: Decimal };
  tub: { base: Decimal; total: Decimal; unit: WeightUnit };
  /** Lines that a scale is too coarse for, in sentences. */
  coarse: readonly string[];
  chemistry: Chemistry;
  tiles: readonly GalleryTile[];
  tests: readonly ShownTest[];
  withdrawn: { tiles: number; tests: number };
  untested: readonly string[];
  pairs: readonly ShownPair[];
  hazards: readonly Hazard[];
  restated?: ShownRestated | undefined;
};

/** A recipe worked out from the reader's own powders. */
export type ShownRestated =
  | { kind: "untouched"; says: string }
  | { kind: "none"; says: string }
  | {
      kind: "mix";
      status: "exact" | "nearest";
      /** Base and additions, percent of the base; null where a powder is in one of the two only. */
      lines: readonly {
        slug: string;
        name: string;
        part: Part;
        own: boolean;
        before: Decimal | null;
        after: Decimal | null;
      }[];
      counted: readonly Oxide[];
      wanted: Readonly<Partial<Record<Oxide, number>>>;
      got: Readonly<Partial<Record<Oxide, number>>>;
      misses: readonly { oxide: Oxide; wanted: number; got: number; because: string }[];
      withinDoubt: boolean | null;
      leftOut: readonly string[];
      /** Of the whole recipe with its additions. */
      chemistry: Chemistry;
      /** What the reader gave, and what had to be assumed of it. */
      assumed: readonly string[];
    };

export type ShownHandout = {
  studio: string;
  family: { name: string; intro: string } | null;
  name: string;
  asOf: Date;
  /** When the link was made; null where nobody handed anything out yet. */
  madeAt: Date | null;
  region: string;
  regions: readonly string[];
  weight: WeightUnit;
  temperature: Temperature;
  tub: Decimal;
  pieces: readonly ShownPiece[];
  powders: readonly ShownPowder[];
  /** Base materials with their percent of each recipe's base. */
  shelf: readonly { slug: string; name: string; percents: readonly (string | null)[] }[];
  /** What a family's handout does not hold, in a sentence. */
  leftOut: string | null;
  /** Where its pictures are. */
  photosAt: string;
};
