import { and, asc, eq, inArray, type SQL } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { type Act, appendEvent } from "./events.ts";
import { isRemoved } from "./pictures.ts";
import { type Reader, readableBy, type Withdrawal } from "./recipes.ts";
import {
  atmospheres,
  people,
  photos,
  pictures,
  recipes,
  revisions,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";

/** What a kiln can hold, in the order in which people choose from it. */
export const tileAtmospheres = atmospheres;

export type FoundPhoto = {
  id: string;
  sha256: string;
  alt: string;
  width: number;
  height: number;
  /** A manager had the picture removed; that it was there stays on record. */
  removed: boolean;
};

export type FoundTile = {
  id: string;
  /** The recipe and the revision that the tile was fired for. */
  recipe: { slug: string; name: string };
  number: number;
  /** What that revision claims, whatever the tile was fired at. */
  claimed: { low: Cone; high: Cone };
  cone: Cone;
  atmosphere: Atmosphere;
  clay: string;
  firedOn: string | null;
  remark: string;
  by: { id: string; name: string };
  at: Date;
  withdrawn: Withdrawal | null;
  photos: FoundPhoto[];
};

/**
 * Tiles of one melt, whichever recipe and revision they were fired for, as far as the reader may
 * know of them; newest last. What was withdrawn is among them and says so.
 */
export const listTiles = (
  db: Db,
  { meltDigest, reader }: { meltDigest: string; reader: Reader },
): Promise<FoundTile[]> => readTiles(db, eq(revisions.meltDigest, meltDigest), reader);

/**
 * One tile. `mayChange` tells whether the reader may add pictures to it and withdraw it: who added
 * it, the recipe's owner, or a manager.
 */
export async function findTile(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<(FoundTile & { mayChange: boolean }) | undefined> {
  if (!isUuid(id)) return undefined;
  const [tile] = await readTiles(db, eq(tiles.id, id), reader);
  if (!tile) return undefined;
  const { ownerId, ...found } = tile;
  return { ...found, mayChange: mayChange({ ownerId, byId: tile.by.id }, reader) };
}

const mayChange = (tile: { ownerId: string; byId: string }, reader: Reader): boolean =>
  reader !== undefined &&
  (reader.role === "manager" || reader.id === tile.byId || reader.id === tile.ownerId);

/** What a revision claims: the cones that it is for, which a tile may well be outside of. */
export async function findClaim(
  db: Db,
  { recipeId, number }: { recipeId: string; number: number },
): Promise<{ number: number; low: Cone; high: Cone } | undefined> {
  const [revision] = await db
    .select({ low: revisions.coneLow, high: revisions.coneHigh })
    .from(revisions)
    .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)));
  return revision && { number, low: revision.low as Cone, high: revision.high as Cone };
}

type Fired = {
  cone: Cone;
  /** That of the revision where nothing is said. */
  atmosphere?: Atmosphere | undefined;
  clay: string;
  /** A calendar day, such as 2026-03-01. */
  firedOn: string | null;
  remark: string;
};

export type NewTile = { kind: "added"; id: string } | { kind: "no-such-revision" };

/** Puts a fired tile on record, of one revision of a recipe that was found through the reader's scope. */
export async function addTile(
  db: Db,
  params: Act & Fired & { by: string; recipeId: string; number: number },
): Promise<NewTile> {
  const { recipeId, number, cone, clay, firedOn, remark, by, at } = params;
  return db.transaction(async (tx) => {
    const [revision] = await tx
      .select({ id: revisions.id, melt: revisions.meltDigest, atmosphere: revisions.atmosphere })
      .from(revisions)
      .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)));
    if (!revision) return { kind: "no-such-revision" };
    const id = uuidv7();
    const atmosphere = params.atmosphere ?? revision.atmosphere;
    const fired = { cone, atmosphere, clay, firedOn, remark };
    await tx.insert(tiles).values({ id, revisionId: revision.id, ...fired, by, at });
    const detail = { revision: revision.id, melt: revision.melt, cone, atmosphere };
    const happening = { kind: "tile added", subject: "tile", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

export type TileWithdrawal = { kind: "withdrawn" } | { kind: "withdrawn-before" };

/** Withdraws a tile, for good and with the reason: it stays on record and counts for nothing. */
export async function withdrawTile(
  db: Db,
  { tileId, why, by, at }: Act & { by: string; tileId: string; why: string },
): Promise<TileWithdrawal> {
  return db.transaction(async (tx) => {
    const [made] = await tx
      .insert(tileWithdrawals)
      .values({ tileId, why, by, at })
      .onConflictDoNothing()
      .returning({ tileId: tileWithdrawals.tileId });
    if (!made) return { kind: "withdrawn-before" };
    const happening = { kind: "tile withdrawn", subject: "tile", subjectId: tileId } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "withdrawn" };
  });
}

const withdrawers = alias(people, "withdrawers");

async function readTiles(
  db: Db,
  which: SQL,
  reader: Reader,
): Promise<(FoundTile & { ownerId: string })[]> {
  const rows = await db
    .select({
      id: tiles.id,
      recipe: { slug: recipes.slug, name: recipes.name },
      ownerId: recipes.ownerId,
      number: revisions.number,
      coneLow: revisions.coneLow,
      coneHigh: revisions.coneHigh,
      cone: tiles.cone,
      atmosphere: tiles.atmosphere,
      clay: tiles.clay,
      firedOn: tiles.firedOn,
      remark: tiles.remark,
      by: { id: people.id, name: people.name },
      at: tiles.at,
      withdrawnWhy: tileWithdrawals.why,
      withdrawnAt: tileWithdrawals.at,
      withdrawnBy: withdrawers.name,
    })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, tiles.by))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .leftJoin(withdrawers, eq(withdrawers.id, tileWithdrawals.by))
    .where(and(which, readableBy(reader)))
    .orderBy(asc(tiles.id));
  const hung = await listPhotos(
    db,
    rows.map(({ id }) => id),
  );
  return rows.map(({ coneLow, coneHigh, withdrawnWhy, withdrawnAt, withdrawnBy, ...row }) => ({
    ...row,
    // The schema bounds their shape; they were taken from the list of cones.
    cone: row.cone as Cone,
    claimed: { low: coneLow as Cone, high: coneHigh as Cone },
    withdrawn:
      withdrawnWhy !== null && withdrawnAt !== null && withdrawnBy !== null
        ? { why: withdrawnWhy, at: withdrawnAt, by: withdrawnBy }
        : null,
    photos: hung.get(row.id) ?? [],
  }));
}

async function listPhotos(db: Db, tileIds: readonly string[]): Promise<Map<string, FoundPhoto[]>> {
  if (tileIds.length === 0) return new Map();
  const rows = await db
    .select({
      id: photos.id,
      tileId: photos.tileId,
      sha256: photos.sha256,
      alt: photos.alt,
      width: pictures.width,
      height: pictures.height,
      removed: isRemoved,
    })
    .from(photos)
    .innerJoin(pictures, eq(pictures.sha256, photos.sha256))
    .where(inArray(photos.tileId, [...tileIds]))
    .orderBy(asc(photos.id));
  const hung = new Map<string, FoundPhoto[]>();
  for (const { tileId, ...photo } of rows) {
    hung.set(tileId, [...(hung.get(tileId) ?? []), photo]);
  }
  return hung;
}
