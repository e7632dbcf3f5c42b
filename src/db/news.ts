import { and, desc, eq, gt, inArray, isNull, ne, or } from "drizzle-orm";
import { unionAll } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { type Happened, listHappened } from "./happenings.ts";
import type { Reader } from "./recipes.ts";
import { events, revisions, tests, tiles } from "./schema/index.ts";

/** The number of the latest event of all: what a page that is made now knows of. */
export async function latestEvent(db: Db): Promise<number> {
  const [last] = await db
    .select({ seq: events.seq })
    .from(events)
    .orderBy(desc(events.seq))
    .limit(1);
  return last?.seq ?? 0;
}

/**
 * The latest ten things that others than the reader did on a recipe after the event `since`, on the
 * recipe itself, its tiles and its tests, oldest first. The recipe was found through the reader's scope.
 */
export async function listNews(
  db: Db,
  { recipeId, since, reader }: { recipeId: string; since: number; reader: Reader },
): Promise<Happened[]> {
  const ofRecipe = eq(revisions.recipeId, recipeId);
  const parts = unionAll(
    db
      .select({ id: tiles.id })
      .from(tiles)
      .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
      .where(ofRecipe),
    db
      .select({ id: tests.id })
      .from(tests)
      .innerJoin(revisions, eq(revisions.id, tests.revisionId))
      .where(ofRecipe),
  );
  const latest = await listHappened(db, {
    which: and(
      gt(events.seq, since),
      or(eq(events.subjectId, recipeId), inArray(events.subjectId, parts)),
      reader && or(isNull(events.by), ne(events.by, reader.id)),
    ),
    order: "newest",
    limit: 10,
  });
  return latest.reverse();
}
