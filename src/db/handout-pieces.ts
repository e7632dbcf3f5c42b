import { and, eq, exists, inArray, notInArray, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { openRecallsOfBuckets } from "./open-recalls.ts";
import { type FoundPair, listPairsOf } from "./pairs.ts";
import { type FoundPicture, type PictureWidth, readPicture } from "./pictures.ts";
import { type Holder, readableBy } from "./recipes.ts";
import { type FoundRevision, findRevisions } from "./revisions.ts";
import {
  buckets,
  familyRecipes,
  people,
  photos,
  recipes,
  revisions,
  tiles,
  type Visibility,
} from "./schema/index.ts";
import type { Standing } from "./standing.ts";
import { findStandings } from "./standings.ts";
import { type FoundTest, listTests } from "./tests.ts";
import { type FoundTile, listTiles } from "./tiles.ts";

/** A revision written up for a reader elsewhere, with what is known of it now. */
export type Piece = {
  recipe: {
    id: string;
    slug: string;
    name: string;
    owner: { id: string; name: string };
    head: number;
    shownTo: Visibility;
  };
  revision: FoundRevision;
  standing: Standing;
  newer: Newer | null;
  /** Of this melt and not withdrawn, newest last. */
  tiles: FoundTile[];
  tests: FoundTest[];
  /** Tiles and tests of this melt that were withdrawn. */
  withdrawn: { tiles: number; tests: number };
  /** Where this melt of the recipe lies over or under another glaze. */
  pairs: FoundPair[];
  /** Buckets of this revision that are under a recall. */
  recalled: number;
};

/** The newest revision, and what it changes: the glaze, how it is fired or used, or words alone. */
export type Newer = { number: number; publishedAt: Date; changes: "glaze" | "firing" | "words" };

/** What is handed out, and whether what is public counts as known to whoever holds it. */
type Handed = { revisionIds: readonly string[]; showsPublic: boolean };

/**
 * Revisions as a handout tells them, in the order given: what stands now, whenever it was made. Who
 * hands them out may; evidence is told as far as whoever holds it may know of it.
 */
export async function readPieces(
  db: Db,
  { revisionIds, showsPublic, now }: Handed & { now: Date },
): Promise<Piece[]> {
  const found = new Map((await findRevisions(db, revisionIds)).map((each) => [each.id, each]));
  const holds = [...found.values()].map(({ recipeId }) => recipeId);
  const reader: Holder = { holds, showsPublic };
  const standings = await findStandings(db, { revisionIds, now });
  const known = new Map((await readRecipes(db, holds)).map((recipe) => [recipe.id, recipe]));
  const pieces: Piece[] = [];
  for (const id of revisionIds) {
    const revision = found.get(id);
    const recipe = revision && known.get(revision.recipeId);
    const standing = standings.get(id);
    if (!revision || !recipe || !standing) throw new Error("every revision has its recipe");
    const { meltDigest } = revision;
    const fired = await listTiles(db, { meltDigest, reader });
    const tested = await listTests(db, { meltDigest, reader });
    pieces.push({
      ...{ recipe, revision, standing, newer: await newerThan(db, revision, recipe.head) },
      tiles: fired.filter(({ withdrawn }) => !withdrawn),
      tests: tested.filter(({ withdrawn }) => !withdrawn),
      withdrawn: {
        tiles: fired.filter(({ withdrawn }) => withdrawn).length,
        tests: tested.filter(({ withdrawn }) => withdrawn).length,
      },
      pairs: await pairsOf(db, { revision, reader, now }),
      recalled: await countRecalled(db, id),
    });
  }
  return pieces;
}

const readRecipes = (db: Db, ids: readonly string[]) =>
  ids.length === 0
    ? Promise.resolve([])
    : db
        .select({
          id: recipes.id,
          slug: recipes.slug,
          name: recipes.name,
          owner: { id: people.id, name: people.name },
          head: recipes.head,
          shownTo: recipes.shownTo,
        })
        .from(recipes)
        .innerJoin(people, eq(people.id, recipes.ownerId))
        .where(inArray(recipes.id, [...new Set(ids)]));

async function newerThan(db: Db, revision: FoundRevision, head: number): Promise<Newer | null> {
  if (revision.number === head) return null;
  const { recipeId, meltDigest, digest } = revision;
  const [newest] = await db
    .select({
      number: revisions.number,
      publishedAt: revisions.publishedAt,
      meltDigest: revisions.meltDigest,
      digest: revisions.digest,
    })
    .from(revisions)
    .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, head)));
  if (!newest) return null;
  const { number, publishedAt } = newest;
  if (newest.meltDigest !== meltDigest) return { number, publishedAt, changes: "glaze" };
  return { number, publishedAt, changes: newest.digest === digest ? "words" : "firing" };
}

async function pairsOf(
  db: Db,
  {
    revision: { recipeId, meltDigest },
    ...asking
  }: { revision: FoundRevision; reader: Holder; now: Date },
): Promise<FoundPair[]> {
  const pairs = await listPairsOf(db, { recipeId, ...asking });
  if (pairs.length === 0) return [];
  const same = await db
    .select({ id: revisions.id })
    .from(revisions)
    .where(and(eq(revisions.recipeId, recipeId), eq(revisions.meltDigest, meltDigest)));
  const ids = new Set(same.map(({ id }) => id));
  return pairs.filter(({ over, under }) => ids.has(over.id) || ids.has(under.id));
}

async function countRecalled(db: Db, revisionId: string): Promise<number> {
  const filled = await db
    .select({ id: buckets.id })
    .from(buckets)
    .where(eq(buckets.revisionId, revisionId));
  const recalls = await openRecallsOfBuckets(
    db,
    filled.map(({ id }) => id),
  );
  return recalls.size;
}

/** A picture of a tile that a handout shows: of a melt that it hands out, where its holder may see it. */
export async function findPiecePicture(
  db: Db,
  { sha256, width, revisionIds, showsPublic }: Handed & { sha256: string; width: PictureWidth },
): Promise<FoundPicture | undefined> {
  if (!/^[0-9a-f]{64}$/.test(sha256) || revisionIds.length === 0) return undefined;
  const handed = await db
    .select({ recipeId: revisions.recipeId, meltDigest: revisions.meltDigest })
    .from(revisions)
    .where(inArray(revisions.id, [...revisionIds]));
  const melts = handed.map(({ meltDigest }) => meltDigest);
  const reader: Holder = { holds: handed.map(({ recipeId }) => recipeId), showsPublic };
  const hung = db
    .select({ one: sql`1` })
    .from(photos)
    .innerJoin(tiles, eq(tiles.id, photos.tileId))
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(
      and(eq(photos.sha256, sha256), inArray(revisions.meltDigest, melts), readableBy(reader)),
    );
  return readPicture(db, { sha256, width, hangs: exists(hung) });
}

/** How many recipes of a family a handout does not hold. */
export async function countLeftOut(
  db: Db,
  { familyId, revisionIds }: { familyId: string; revisionIds: readonly string[] },
): Promise<number> {
  const held = db
    .select({ recipeId: revisions.recipeId })
    .from(revisions)
    .where(inArray(revisions.id, [...revisionIds]));
  const others = and(
    eq(familyRecipes.familyId, familyId),
    notInArray(familyRecipes.recipeId, held),
  );
  return db.$count(familyRecipes, others);
}
