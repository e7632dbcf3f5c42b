import { and, asc, eq, inArray, isNull } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { photos, recipes, revisions, tiles, tileWithdrawals } from "./schema/index.ts";

type Tested = { cones: string[]; picture: { sha256: string; alt: string } | null };

/** What tiles say of each melt alone, whichever recipe they were fired for, as far as the reader may know. */
export async function findTestedMelts(
  db: Db,
  { melts, reader }: { melts: string[]; reader: Reader },
): Promise<Map<string, Tested>> {
  if (melts.length === 0) return new Map();
  const rows = await db
    .select({
      melt: revisions.meltDigest,
      cone: tiles.cone,
      sha256: photos.sha256,
      alt: photos.alt,
    })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .leftJoin(photos, eq(photos.tileId, tiles.id))
    .where(
      and(
        inArray(revisions.meltDigest, melts),
        isNull(tileWithdrawals.tileId),
        isNull(tiles.overId),
        readableBy(reader),
      ),
    )
    .orderBy(asc(tiles.id), asc(photos.id));
  const tested = new Map<string, Tested>();
  for (const { melt, cone, sha256, alt } of rows) {
    const known = tested.get(melt) ?? { cones: [], picture: null };
    if (!known.cones.includes(cone)) known.cones.push(cone);
    if (!known.picture && sha256 !== null) known.picture = { sha256, alt: alt ?? "" };
    tested.set(melt, known);
  }
  return tested;
}
