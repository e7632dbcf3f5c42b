import { and, asc, eq, sql } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { recipes, revisions, tiles, tileWithdrawals } from "./schema/index.ts";

/** A tile as its firing tells of it. */
export type TileInFiring = {
  id: string;
  recipe: { slug: string; name: string };
  number: number;
  cone: Cone;
  clay: string;
  place: string;
  withdrawn: boolean;
};

/** The tiles that stood in a firing, as far as the reader may know of them. */
export async function listTilesOfFiring(
  db: Db,
  { firingId, reader }: { firingId: string; reader: Reader },
): Promise<TileInFiring[]> {
  const rows = await db
    .select({
      id: tiles.id,
      recipe: { slug: recipes.slug, name: recipes.name },
      number: revisions.number,
      cone: tiles.cone,
      clay: tiles.clay,
      place: tiles.place,
      withdrawn: sql<boolean>`${tileWithdrawals.tileId} is not null`,
    })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(and(eq(tiles.firingId, firingId), readableBy(reader)))
    .orderBy(asc(recipes.nameKey), asc(tiles.id));
  // The schema bounds its shape; it was taken from the list of cones.
  return rows.map((row) => ({ ...row, cone: row.cone as Cone }));
}
