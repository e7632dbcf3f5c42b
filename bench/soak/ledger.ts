import { Decimal } from "decimal.js";

export type KeptRevision = { message: string; basedOn: number | null };
export type KeptRecipe = {
  slug: string;
  owner: string;
  shownTo: string;
  /** Every revision that was acknowledged, by its number. */
  revisions: Map<number, KeptRevision>;
  /** The heads from which somebody was told that they came too late. */
  lost: Set<number>;
  notes: Set<string>;
  /** Notes that came with a review: an objection stands as one. */
  objecting: number;
  tiles: Set<string>;
};

export type KeptLot = {
  id: string;
  material: string;
  /** What is left by what was acknowledged alone. */
  left: Decimal;
  /** What was said to be found in it, each time. */
  counts: string[];
  moves: number;
  /** The place of the one who alone takes from it and counts it, where it is somebody's. */
  keeper: number | null;
};

export type KeptBucket = {
  id: string;
  recipe: string;
  /** The powder that was acknowledged as in, by all its mixes. */
  put: Decimal;
  uses: number;
  additions: number;
  /** Readings change what its powder is taken for, so of some nobody takes any. */
  read: boolean;
  readings: number;
};

/** What the actors were told is done: the studio has to hold just that at the end. */
export class Ledger {
  readonly recipes = new Map<string, KeptRecipe>();
  readonly lots = new Map<string, KeptLot>();
  readonly buckets = new Map<string, KeptBucket>();

  newRecipe(
    slug: string,
    { owner, shownTo, message }: Record<"owner" | "shownTo" | "message", string>,
  ): void {
    const revisions = new Map([[1, { message, basedOn: null }]]);
    const none = {
      lost: new Set<number>(),
      notes: new Set<string>(),
      objecting: 0,
      tiles: new Set<string>(),
    };
    this.recipes.set(slug, { slug, owner, shownTo, revisions, ...none });
  }

  move(lot: KeptLot, grams: Decimal): void {
    lot.left = lot.left.plus(grams);
    lot.moves += 1;
  }
}

/** Grams with four decimals at most, as a scale would say them. */
export const gramsOf = (random: () => number, most: number): Decimal =>
  new Decimal(1 + Math.floor(random() * most * 10_000)).div(10_000);
