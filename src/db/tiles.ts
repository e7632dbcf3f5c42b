import type { Decimal } from "decimal.js";
import { and, asc, eq, type SQL } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid } from "uuid";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { personIn, type Reader, readableBy, type Scope, type Withdrawal } from "./recipes.ts";
import {
  applications,
  atmospheres,
  bodies,
  defects,
  movements,
  people,
  recipes,
  revisions,
  tiles,
  tileWithdrawals,
  transparencies,
} from "./schema/index.ts";
import {
  type Beneath,
  type FoundPhoto,
  findBeneath,
  findTileBuckets,
  findTileFirings,
  listPhotos,
  type TileFiring,
} from "./tile-context.ts";

export { addTile, type NewTile, type TileWithdrawal, withdrawTile } from "./tile-adding.ts";
export type { FoundPhoto } from "./tile-context.ts";

/** What a kiln can hold, in the order in which people choose from it. */
export const tileAtmospheres = atmospheres;

/** What can go wrong with a glaze in the fire, in the trade's words. */
export const tileDefects = defects;
export type Defect = (typeof defects)[number];

/** How much of the body shows through. */
export const tileTransparencies = transparencies;
export type Transparency = (typeof transparencies)[number];

/** How far the glaze went down the tile in the fire. */
export const tileMovements = movements;
export type Movement = (typeof movements)[number];

/** How a glaze gets onto the ware. */
export const tileApplications = applications;
export type Application = (typeof applications)[number];

export type FoundTile = {
  id: string;
  /** The recipe and the revision that the tile was fired for. */
  recipe: { slug: string; name: string };
  number: number;
  /** What that revision claims, whatever the tile was fired at. */
  claimed: { low: Cone; high: Cone };
  cone: Cone;
  atmosphere: Atmosphere;
  /** In words; the body's name where the body is on record. */
  clay: string;
  firedOn: string | null;
  remark: string;
  body: { slug: string; name: string } | null;
  firing: TileFiring | null;
  bisqueCone: Cone | null;
  thicknessMm: Decimal | null;
  /** Where in the kiln it stood. */
  place: string;
  surface: string;
  transparency: Transparency | null;
  movement: Movement | null;
  defects: Defect[];
  application: Application | null;
  /** Of dipping or pouring. */
  seconds: Decimal | null;
  coats: number | null;
  /** Of the slurry that it was glazed from. */
  specificGravity: Decimal | null;
  /** What stood beside it in the kiln: chromium and copper travel. */
  beside: string;
  /** The bucket that it proves; null also where the reader may not know of that. */
  bucket: { id: string; name: string } | null;
  /** Over another glaze: it speaks for the pair and counts for neither alone. */
  layered: boolean;
  /** What it lies over; null also where the reader may not know of that. */
  over: Beneath | null;
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
  { meltDigest, reader }: { meltDigest: string; reader: Scope },
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

const withdrawers = alias(people, "withdrawers");

async function readTiles(
  db: Db,
  which: SQL,
  reader: Scope,
): Promise<(FoundTile & { ownerId: string })[]> {
  const rows = await db
    .select({
      tile: tiles,
      recipe: { slug: recipes.slug, name: recipes.name },
      ownerId: recipes.ownerId,
      number: revisions.number,
      coneLow: revisions.coneLow,
      coneHigh: revisions.coneHigh,
      body: { slug: bodies.slug, name: bodies.name },
      by: { id: people.id, name: people.name },
      withdrawnWhy: tileWithdrawals.why,
      withdrawnAt: tileWithdrawals.at,
      withdrawnBy: withdrawers.name,
    })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, tiles.by))
    .leftJoin(bodies, eq(bodies.id, tiles.bodyId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .leftJoin(withdrawers, eq(withdrawers.id, tileWithdrawals.by))
    .where(and(which, readableBy(reader)))
    .orderBy(asc(tiles.id));
  const found = rows.map(({ tile }) => tile);
  const hung = await listPhotos(db, idsOf(found, "id"));
  const fired = await findTileFirings(db, idsOf(found, "firingId"));
  const proved = await findTileBuckets(db, {
    ids: idsOf(found, "bucketId"),
    reader: personIn(reader),
  });
  const beneath = await findBeneath(db, { ids: idsOf(found, "overId"), reader });
  return rows.map(({ tile, coneLow, coneHigh, withdrawnWhy, withdrawnAt, withdrawnBy, ...row }) => {
    const { revisionId: _, bodyId: __, firingId, bucketId, overId, ...said } = tile;
    return {
      ...said,
      ...row,
      // The schema bounds their shape; they were taken from the list of cones.
      cone: tile.cone as Cone,
      bisqueCone: tile.bisqueCone as Cone | null,
      claimed: { low: coneLow as Cone, high: coneHigh as Cone },
      firing: (firingId && fired.get(firingId)) || null,
      bucket: (bucketId && proved.get(bucketId)) || null,
      layered: overId !== null,
      over: (overId && beneath.get(overId)) || null,
      withdrawn:
        withdrawnWhy !== null && withdrawnAt !== null && withdrawnBy !== null
          ? { why: withdrawnWhy, at: withdrawnAt, by: withdrawnBy }
          : null,
      photos: hung.get(tile.id) ?? [],
    };
  });
}

type Row = typeof tiles.$inferSelect;

const idsOf = (rows: readonly Row[], key: "id" | "firingId" | "bucketId" | "overId"): string[] => [
  ...new Set(rows.flatMap((row) => row[key] ?? [])),
];
