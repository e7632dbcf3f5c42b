import { and, asc, eq, gt, inArray, type SQLWrapper, sql } from "drizzle-orm";
import { engine } from "../chem/chemistry.ts";
import { type Move, movesBetween } from "../chem/moves.ts";
import { chemistryRow } from "./chemistries.ts";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { findRevisions } from "./revisions.ts";
import { chemistries, engineMoves, recipes, revisions } from "./schema/index.ts";
import { unsettleJudged } from "./unsettling.ts";

const parts = (version: SQLWrapper | string) => sql`string_to_array(${version}, '.')::int[]`;

/**
 * Worked out by an earlier engine. What a later one worked out is left alone: while a studio is
 * upgraded, instances of both versions run, and would else undo each other's work for ever.
 */
const isStale = sql`${chemistries.engine} <> ${engine} and (case
  when ${chemistries.engine} ~ '^[0-9]{1,6}([.][0-9]{1,6})*$'
  then ${parts(chemistries.engine)} < ${parts(engine)} else true end)`;

/**
 * Works some revisions out anew that an earlier engine worked out, and puts on record what moved.
 * A batch is one transaction, so that it can be stopped anywhere and goes on where it was; two
 * instances at once take different revisions.
 *
 * @returns how many were done: 0 where none is left, or others have the rest in hand.
 */
export async function recomputeSome(
  db: Db,
  { limit, at }: { limit: number; at: Date },
): Promise<number> {
  return db.transaction(async (tx) => {
    const stale = await tx
      .select({ revisionId: chemistries.revisionId, engine: chemistries.engine })
      .from(chemistries)
      .where(isStale)
      .orderBy(asc(chemistries.revisionId))
      .limit(limit)
      .for("update", { skipLocked: true });
    if (stale.length === 0) return 0;
    const engines = new Map(stale.map(({ revisionId, engine: from }) => [revisionId, from]));
    const found = await findRevisions(tx, [...engines.keys()]);
    const rows = found.map((revision) =>
      chemistryRow({ revisionId: revision.id, draft: revision }),
    );
    await tx.delete(chemistries).where(inArray(chemistries.revisionId, [...engines.keys()]));
    await tx.insert(chemistries).values(rows);
    const moved = found.flatMap((revision, place) => {
      const after = rows[place]?.detail;
      const moves = after ? movesBetween(revision.chemistry, after) : [];
      const fromEngine = engines.get(revision.id) ?? "";
      return moves.length === 0
        ? []
        : [{ revisionId: revision.id, fromEngine, toEngine: engine, moves, at }];
    });
    await unsettleJudged(tx, [...engines.keys()]);
    if (moved.length > 0) await tx.insert(engineMoves).values(moved).onConflictDoNothing();
    return found.length;
  });
}

/** How many revisions still show what an earlier engine made of them. */
export async function countStale(db: Db): Promise<number> {
  return db.$count(chemistries, isStale);
}

export type MovedRevision = {
  id: string;
  slug: string;
  name: string;
  number: number;
  from: string;
  moves: Move[];
};

/** Revisions in which this engine sees something otherwise that matters, as far as one may know of them. */
export async function listEngineMoves(
  db: Db,
  { reader, after, limit }: { reader: Reader; after?: string | undefined; limit: number },
): Promise<MovedRevision[]> {
  return db
    .select({
      id: revisions.id,
      slug: recipes.slug,
      name: recipes.name,
      number: revisions.number,
      from: engineMoves.fromEngine,
      moves: engineMoves.moves,
    })
    .from(engineMoves)
    .innerJoin(revisions, eq(revisions.id, engineMoves.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(
      and(
        eq(engineMoves.toEngine, engine),
        readableBy(reader),
        after === undefined ? undefined : gt(revisions.id, after),
      ),
    )
    .orderBy(asc(revisions.id))
    .limit(limit);
}
