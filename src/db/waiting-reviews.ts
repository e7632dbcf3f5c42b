import { and, eq, ne, or, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { readableBy } from "./recipes.ts";
import {
  people,
  recipes,
  reviewRequests,
  reviews,
  revisionStandings,
  revisions,
} from "./schema/index.ts";
import { standingChangedAt, type Waiter, waitingColumns } from "./waiting-rows.ts";

/**
 * Revisions in review that somebody asked the reviewers to look at: written by others, and not
 * judged by this person since the latest asking.
 */
export const askedReviews = (db: Db, { reader }: Waiter) =>
  db
    .select(
      waitingColumns({
        kind: "review",
        number: revisions.number,
        detail: reviewRequests.for,
        at: reviewRequests.at,
        by: people.name,
      }),
    )
    .from(reviewRequests)
    .innerJoin(revisions, eq(revisions.id, reviewRequests.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(revisionStandings, eq(revisionStandings.revisionId, revisions.id))
    .innerJoin(people, eq(people.id, reviewRequests.by))
    .where(
      and(
        eq(revisionStandings.is, "in review"),
        ne(revisions.authorId, reader.id),
        sql`not exists (select 1 from ${reviewRequests} later where later.revision_id = ${revisions.id} and later.id > ${reviewRequests.id})`,
        sql`not exists (select 1 from ${reviews} r where r.digest = ${revisions.digest} and r."by" = ${reader.id} and r.at >= ${reviewRequests.at})`,
        sql`not is_own_content(${reader.id}::uuid, ${revisions.id})`,
        readableBy(reader),
      ),
    );

/**
 * Recipes of the person's own that need another look: their head, or the newest revision that was
 * approved, where its approval lapsed or is past its time.
 */
export const anotherLooks = (db: Db, { reader, now }: Waiter) => {
  const past = sql`(${revisionStandings.is} = 'approved' and ${revisionStandings.validUntil} <= ${now.toISOString()}::timestamptz)`;
  return db
    .select(
      waitingColumns({
        kind: "another-look",
        number: revisions.number,
        at: sql`coalesce(${standingChangedAt}, ${revisionStandings.validUntil}, ${revisions.publishedAt})`,
      }),
    )
    .from(recipes)
    .innerJoin(revisions, eq(revisions.recipeId, recipes.id))
    .innerJoin(revisionStandings, eq(revisionStandings.revisionId, revisions.id))
    .where(
      and(
        eq(recipes.ownerId, reader.id),
        or(eq(revisionStandings.is, "needs another look"), past),
        or(
          eq(revisions.number, recipes.head),
          sql`not exists (
            select 1 from ${revisions} r join ${revisionStandings} s on s.revision_id = r.id
            where r.recipe_id = ${recipes.id} and r.number > ${revisions.number} and s."is" in ('approved', 'needs another look'))`,
        ),
      ),
    );
};
