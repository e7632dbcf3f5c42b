import { and, eq, gt, inArray, or, type SQL, sql } from "drizzle-orm";
import { alias, unionAll } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { type Happened, listHappened } from "./happenings.ts";
import { type Reason, withReasons } from "./history-reasons.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  events,
  importedThings,
  offers,
  recipes,
  revisions,
  tests,
  tiles,
  withdrawals,
} from "./schema/index.ts";

/** Something in a recipe's history, with why it was done as far as that is on record. */
export type HistoryLine = Reason & Happened;

type Asked = { recipeId: string; reader: Reader; after?: number | undefined; limit: number };

/**
 * What became of a recipe, in the order in which it did: its revisions, what they were forked into,
 * judged, objected to and offered, its tiles and tests, and when an approval was lost. The recipe was
 * found through the reader's scope; forks that the reader may not know of are left out.
 */
export async function listHistory(
  db: Db,
  asked: Asked,
): Promise<{ items: HistoryLine[]; next: string | null }> {
  const { recipeId, reader, after, limit } = asked;
  const evidence = evidenceOf(db, recipeId);
  const offered = offersTo(db, recipeId, reader);
  const forks = forksOf(db, recipeId, reader);
  const subjects = unionAll(evidence, offered, forks, importsOf(db, recipeId));
  const rows = await listHappened(db, {
    which: and(
      after === undefined ? undefined : gt(events.seq, after),
      // Found by their subjects first: the conditions below would be asked of every event.
      sql`${events.subjectId} = any(array(${subjects}) || ${recipeId}::uuid)`,
      or(
        and(eq(events.subjectId, recipeId), isPartOfTheStory),
        inArray(events.subjectId, evidence),
        inArray(events.subjectId, offered),
        and(eq(events.kind, "import withdrawn"), wentWithImport(recipeId)),
        and(eq(events.kind, "forked"), inArray(events.subjectId, forks)),
      ),
    ),
    order: "oldest",
    limit: limit + 1,
  });
  const page = rows.slice(0, limit);
  const last = page.at(-1);
  return {
    items: await withReasons(db, { recipeId, reader, happened: page }),
    next: rows.length > limit && last ? String(last.seq) : null,
  };
}

/** Talk is on the recipe's page; its history has what changed it or what it counts as. */
const isPartOfTheStory: SQL = sql`(
  ${events.kind} in ('published', 'forked', 'revised', 'approved', 'objected to', 'remarked on', 'review asked for',
    'objection closed', 'objection overruled', 'standing changed', 'withdrawn', 'put forward again')
  or (${events.kind} = 'noted' and ${events.text}::jsonb #>> '{detail,blocking}' = 'true'))`;

/** Taken back with the import that brought it, which is one event for all that came with it. */
const wentWithImport = (recipeId: string): SQL => sql`exists (
  select 1 from ${importedThings} i join ${withdrawals} w on w.recipe_id = i.thing_id
  where i.noun = 'recipe' and i.thing_id = ${recipeId}
  and i.import_id::text = ${events.subjectId}::text and w.at = ${events.at})`;

const importsOf = (db: Db, recipeId: string) =>
  db
    .select({ id: importedThings.importId })
    .from(importedThings)
    .where(and(eq(importedThings.noun, "recipe"), eq(importedThings.thingId, recipeId)));

const evidenceOf = (db: Db, recipeId: string) =>
  unionAll(
    db
      .select({ id: tiles.id })
      .from(tiles)
      .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
      .where(eq(revisions.recipeId, recipeId)),
    db
      .select({ id: tests.id })
      .from(tests)
      .innerJoin(revisions, eq(revisions.id, tests.revisionId))
      .where(eq(revisions.recipeId, recipeId)),
  );

/** Offers from recipes that the reader may know of. */
const offersTo = (db: Db, recipeId: string, reader: Reader) =>
  db
    .select({ id: offers.id })
    .from(offers)
    .innerJoin(revisions, eq(revisions.id, offers.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(eq(offers.recipeId, recipeId), readableBy(reader)));

const forksOf = (db: Db, recipeId: string, reader: Reader) => {
  const origins = alias(revisions, "origins");
  return db
    .select({ id: recipes.id })
    .from(recipes)
    .innerJoin(origins, eq(origins.id, recipes.forkedFrom))
    .where(and(eq(origins.recipeId, recipeId), readableBy(reader)));
};
