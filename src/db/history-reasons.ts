import { and, eq, inArray } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { findWords, type Happened } from "./history-words.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { recipes, revisions, tests, tiles } from "./schema/index.ts";

/** Why something was done, in its doer's words; which revision it is of; which other recipe it is about. */
export type Reason = {
  /** It happened to the recipe itself, and not to a fork, a tile, a test or an offer. */
  own: boolean;
  why: string | null;
  number: number | null;
  other: { slug: string; name: string; number: number } | null;
};

/** A page of history with its reasons: one question for each table that has some. */
export async function withReasons<L extends Happened>(
  db: Db,
  { recipeId, reader, happened }: { recipeId: string; reader: Reader; happened: L[] },
): Promise<(L & Reason)[]> {
  const said = await findWords(db, { recipeId, happened });
  const parts = await findParts(db, happened);
  const others = await findOthers(db, { recipeId, reader, happened });
  return happened.map((line) => ({
    ...line,
    own: line.subjectId === recipeId,
    why: said.get(line.seq) ?? null,
    number: numberOf(line) ?? parts.get(line.subjectId) ?? null,
    other: others.get(line.seq) ?? null,
  }));
}

const idOf = (value: unknown): string[] => (typeof value === "string" ? [value] : []);

const numberOf = ({ detail: { number } }: Happened): number | undefined =>
  typeof number === "number" ? number : undefined;

/** Of which revision a tile or a test is. */
async function findParts(db: Db, happened: Happened[]): Promise<Map<string, number>> {
  const ids = happened.map(({ subjectId }) => subjectId);
  const ofTiles = await db
    .select({ id: tiles.id, number: revisions.number })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .where(inArray(tiles.id, ids));
  const ofTests = await db
    .select({ id: tests.id, number: revisions.number })
    .from(tests)
    .innerJoin(revisions, eq(revisions.id, tests.revisionId))
    .where(inArray(tests.id, ids));
  return new Map([...ofTiles, ...ofTests].map(({ id, number }) => [id, number]));
}

/** The other recipe of a fork, as far as the reader may know of it: what it was forked into, or from. */
async function findOthers(
  db: Db,
  { recipeId, reader, happened }: { recipeId: string; reader: Reader; happened: Happened[] },
): Promise<Map<number, Reason["other"]>> {
  const forked = happened.filter(({ kind }) => kind === "forked");
  const origins = alias(revisions, "origins");
  const into = await db
    .select({ id: recipes.id, slug: recipes.slug, name: recipes.name, number: origins.number })
    .from(recipes)
    .innerJoin(origins, eq(origins.id, recipes.forkedFrom))
    .where(
      inArray(
        recipes.id,
        forked.map(({ subjectId }) => subjectId),
      ),
    );
  const from = await db
    .select({ id: revisions.id, slug: recipes.slug, name: recipes.name, number: revisions.number })
    .from(revisions)
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(
      and(
        inArray(
          revisions.id,
          forked.flatMap(({ detail }) => idOf(detail.forkedFrom)),
        ),
        readableBy(reader),
      ),
    );
  const known = new Map([...into, ...from].map(({ id, ...other }) => [id, other]));
  return new Map(
    forked.map(({ seq, subjectId, detail }) => [
      seq,
      known.get(subjectId === recipeId ? String(detail.forkedFrom) : subjectId) ?? null,
    ]),
  );
}
