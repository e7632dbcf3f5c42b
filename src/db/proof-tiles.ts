import { and, asc, eq, inArray, isNull, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import { type FoundColour, inUseOf, listColours } from "./colours.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { buckets, recipes, revisions, tiles, tileWithdrawals } from "./schema/index.ts";

/** A tile that was fired to see whether a bucket still comes out as it did. */
export type ProofTile = {
  id: string;
  /** When it was fired, else when it was put on record. */
  on: Date;
  cone: Cone;
  clay: string;
  /** The newest of each kind that was read of it. */
  colours: ReturnType<typeof inUseOf<FoundColour>>;
};

/**
 * The proof tiles of a bucket that was found through the reader's scope, as far as the reader may
 * know of them; what was withdrawn proves nothing and is left out.
 */
export async function listProofTiles(
  db: Db,
  { bucketId, reader }: { bucketId: string; reader: Reader },
): Promise<ProofTile[]> {
  return (await findProofTiles(db, { bucketIds: [bucketId], reader })).get(bucketId) ?? [];
}

/** The same of several buckets: bucket id → its proof tiles. */
export async function findProofTiles(
  db: Db,
  { bucketIds, reader }: { bucketIds: readonly string[]; reader: Reader },
): Promise<Map<string, ProofTile[]>> {
  const found = new Map<string, ProofTile[]>();
  if (bucketIds.length === 0) return found;
  const rows = await db
    .select({
      bucketId: sql<string>`${tiles.bucketId}`,
      id: tiles.id,
      firedOn: tiles.firedOn,
      at: tiles.at,
      cone: tiles.cone,
      clay: tiles.clay,
    })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(
      and(
        inArray(tiles.bucketId, [...bucketIds]),
        isNull(tileWithdrawals.tileId),
        readableBy(reader),
      ),
    )
    .orderBy(asc(tiles.id));
  const read = await listColours(
    db,
    rows.map(({ id }) => id),
  );
  for (const { bucketId, id, firedOn, at, cone, clay } of rows) {
    const tile = {
      id,
      on: firedOn === null ? at : new Date(firedOn),
      // The schema bounds its shape; it was taken from the list of cones.
      cone: cone as Cone,
      clay,
      colours: inUseOf(read.get(id) ?? []),
    };
    found.set(bucketId, [...(found.get(bucketId) ?? []), tile]);
  }
  return found;
}

const filled = alias(revisions, "filled");

/** The buckets that hold the melt of one revision, by name, as far as the reader may know of them. */
export const listBucketsOf = (
  db: Db,
  { recipeId, number, reader }: { recipeId: string; number: number; reader: Reader },
): Promise<{ id: string; name: string }[]> =>
  db
    .select({ id: buckets.id, name: buckets.name })
    .from(revisions)
    .innerJoin(filled, eq(filled.meltDigest, revisions.meltDigest))
    .innerJoin(buckets, eq(buckets.revisionId, filled.id))
    .innerJoin(recipes, eq(recipes.id, filled.recipeId))
    .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number), readableBy(reader)))
    .orderBy(asc(buckets.nameKey), asc(buckets.id));
