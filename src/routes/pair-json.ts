import type { FoundPairReview } from "../db/pair-reviews.ts";
import type { FoundPair, PairedGlaze } from "../db/pairs.ts";
import type { FoundTile } from "../db/tiles.ts";
import { tileJson } from "./tile-json.ts";

const glazeJson = ({ slug, name, number, use }: PairedGlaze) => ({ slug, name, number, use });

/** Decorative only is all that a pair is for until it is approved for more. */
const standingJson = ({ is, for: use, because }: FoundPair["standing"]) => ({
  is,
  for: is === "approved" && use === "functional" ? "functional" : "decorative",
  because,
});

/** A pair as lists tell it. */
export const pairJson = (pair: FoundPair) => ({
  id: pair.id,
  over: glazeJson(pair.over),
  under: glazeJson(pair.under),
  about: pair.about,
  by: pair.by,
  at: pair.at.toISOString(),
  standing: standingJson(pair.standing),
});

/** A pair with its tiles, with what it lacks as functional ware and with what reviewers said. */
export const wholePairJson = (
  pair: FoundPair,
  { tiles, reviews }: { tiles: readonly FoundTile[]; reviews: readonly FoundPairReview[] },
) => ({
  ...pairJson(pair),
  missing: pair.known.facts.gaps,
  tiles: tiles.map(tileJson),
  reviews: reviews.map((review) => ({ ...review, at: review.at.toISOString() })),
});
