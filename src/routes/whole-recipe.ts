import { listStockOf } from "../db/bucket-stock.ts";
import { listFits } from "../db/fits.ts";
import { listHandouts } from "../db/handouts.ts";
import { latestEvent } from "../db/news.ts";
import { listNotes } from "../db/notes.ts";
import { listOffers } from "../db/offers.ts";
import { listPairsOf } from "../db/pairs.ts";
import { powderChangeOf } from "../db/powder-changes.ts";
import { type FoundRecipe, findRecipe } from "../db/recipes.ts";
import { listReviewers } from "../db/reviewers.ts";
import { findReviewable, listReviews } from "../db/reviews.ts";
import { type FoundRevision, findRevision } from "../db/revisions.ts";
import { listShareLinks } from "../db/share-links.ts";
import { findApproved, findStandings } from "../db/standings.ts";
import { listTests } from "../db/tests.ts";
import { listTiles } from "../db/tiles.ts";
import { findTrialOf, listTrialsOn } from "../db/trial-recipes.ts";
import type { Ctx } from "../wire/context.ts";
import { readAs } from "./conventions.ts";
import { recipeJson } from "./recipe-json.ts";
import { withLimits } from "./test-limits.ts";

/**
 * A recipe with all that its page shows, found through the reader's scope. `head` is the revision
 * that was asked for by its number.
 */
export async function findWhole(c: Ctx, slug: string, number?: number) {
  const { db, viewer, now } = c.var;
  const since = await latestEvent(db);
  const recipe = await findRecipe(db, { slug, reader: viewer });
  const head =
    recipe && (await findRevision(db, { recipeId: recipe.id, number: number ?? recipe.head }));
  if (!recipe || !head) return undefined;
  const standing = (await findStandings(db, { revisionIds: [head.id], now })).get(head.id);
  if (!standing) throw new Error("every revision has a standing");
  const tests = await listTests(db, { meltDigest: head.meltDigest, reader: viewer });
  const reviews = viewer !== undefined && viewer.role !== "member";
  return {
    recipe,
    head,
    standing,
    /** Read before all else: what happens later is news to the page. */
    since,
    approved: await findApproved(db, { recipeId: recipe.id, now }),
    /** null for a visitor, whom buckets do not concern. */
    stock: viewer ? await listStockOf(db, { recipeId: recipe.id, now }) : null,
    tiles: await listTiles(db, { meltDigest: head.meltDigest, reader: viewer }),
    tests: tests.map((test) => withLimits(c, test)),
    fits: await listFits(db, { meltDigest: head.meltDigest, reader: viewer }),
    pairs: await listPairsOf(db, { recipeId: recipe.id, reader: viewer, now }),
    notes: await listNotes(db, { recipeId: recipe.id, head: await newestOf(c, recipe, head) }),
    reviews: await listReviews(db, { recipeId: recipe.id }),
    reviewers: await listReviewers(db, head),
    reviewable: reviews ? await findReviewable(db, { revision: head, readerId: viewer.id }) : null,
    trial: await findTrialOf(db, { recipeId: recipe.id, reader: viewer }),
    trialsOn: await listTrialsOn(db, { slug: recipe.slug, reader: viewer }),
    links: recipe.mayRevise ? await listShareLinks(db, { recipeId: recipe.id }) : [],
    handouts: viewer ? await listHandouts(db, { recipeId: recipe.id, reader: viewer }) : [],
    today: powderChangeOf(head),
    offers: await listOffers(db, { recipeId: recipe.id, orFrom: true, reader: viewer }),
    mayOffer: [recipe.owner.id, head.author.id].includes(viewer?.id ?? ""),
    ...readAs(c, head),
  };
}

/** What notes are read beside: the head, whichever revision is looked at. */
const newestOf = async ({ var: { db } }: Ctx, recipe: FoundRecipe, found: FoundRevision) =>
  found.number === recipe.head
    ? found
    : findRevision(db, { recipeId: recipe.id, number: recipe.head });

export type WholeRecipe = NonNullable<Awaited<ReturnType<typeof findWhole>>>;

/** The recipe's JSON as whoever just changed it may read it. */
export async function headJson(c: Ctx, slug: string) {
  const found = await findWhole(c, slug);
  return found && recipeJson(found);
}
