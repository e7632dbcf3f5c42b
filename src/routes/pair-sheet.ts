import { v7 as uuidv7 } from "uuid";
import { PairPage, type PairPageProps } from "../../views/pairs/page.tsx";
import { listPairReviews } from "../db/pair-reviews.ts";
import { type FoundPair, findPair } from "../db/pairs.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { listTests } from "../db/tests.ts";
import { listTiles } from "../db/tiles.ts";
import type { Ctx } from "../wire/context.ts";
import { withLimits } from "./test-limits.ts";

/** The pair that the address names, found through the reader's scope of both glazes. */
export const findThePair = (c: Ctx) =>
  findPair(c.var.db, { id: c.req.param("id") ?? "", reader: c.var.viewer, now: c.var.now });

/** What a pair's page shows beside the pair: its tiles and tests on the same melts, and its reviews. */
export async function findPairSheet(c: Ctx, pair: FoundPair) {
  const { db, viewer } = c.var;
  const recipe = await findRecipe(db, { slug: pair.over.slug, reader: viewer });
  const over =
    recipe && (await findRevision(db, { recipeId: recipe.id, number: pair.over.number }));
  if (!over) throw new Error("the pair was found through both its glazes");
  const { tileIds } = pair.known;
  const tiles = await listTiles(db, { meltDigest: over.meltDigest, reader: viewer });
  const tests = await listTests(db, { meltDigest: over.meltDigest, reader: viewer });
  return {
    tiles: tiles.filter(({ id }) => tileIds.has(id)),
    tests: tests
      .filter(({ tile }) => tile !== null && tile !== "unknown" && tileIds.has(tile.id))
      .map((test) => withLimits(c, test)),
    reviews: await listPairReviews(db, { pairId: pair.id }),
  };
}

/** A pair's page, with what was typed on it and what is wrong with that. */
export function pairSheet(
  c: Ctx,
  pair: FoundPair,
  found: Awaited<ReturnType<typeof findPairSheet>>,
  more: Pick<PairPageProps, "typed" | "faults"> = {},
) {
  const { viewer } = c.var;
  const reviews = viewer !== undefined && viewer.role !== "member";
  return {
    page: { title: `${pair.over.name} over ${pair.under.name}`, here: "library" as const },
    view: () =>
      PairPage({
        pair,
        ...found,
        gaps: pair.known.facts.gaps,
        against: pair.known.facts.against,
        mayReview: reviews && !pair.known.writers.has(viewer.id),
        wroteIt: reviews && pair.known.writers.has(viewer.id),
        mayAdd: viewer !== undefined,
        idempotencyKey: uuidv7(),
        ...more,
      }),
  };
}
