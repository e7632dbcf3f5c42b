import { and, asc, eq, exists, isNull, ne } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import { type FoundColour, inUseOf, listColours } from "./colours.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { recipes, revisions, tileColours, tiles, tileWithdrawals } from "./schema/index.ts";

/** A tile that another one's colour can be held against. */
export type ColouredTile = {
  id: string;
  recipe: string;
  number: number;
  cone: Cone;
  clay: string;
  firedOn: string | null;
  colours: ReturnType<typeof inUseOf<FoundColour>>;
};

const mine = alias(tiles, "mine");
const its = alias(revisions, "its");

/** The other tiles of a tile's melt that have a colour and were not withdrawn, oldest first. */
export async function listColouredBeside(
  db: Db,
  { tileId, reader }: { tileId: string; reader: Reader },
): Promise<ColouredTile[]> {
  const rows = await db
    .select({
      id: tiles.id,
      recipe: recipes.name,
      number: revisions.number,
      cone: tiles.cone,
      clay: tiles.clay,
      firedOn: tiles.firedOn,
    })
    .from(mine)
    .innerJoin(its, eq(its.id, mine.revisionId))
    .innerJoin(revisions, eq(revisions.meltDigest, its.meltDigest))
    .innerJoin(tiles, and(eq(tiles.revisionId, revisions.id), ne(tiles.id, mine.id)))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(
      and(
        eq(mine.id, tileId),
        isNull(tileWithdrawals.tileId),
        exists(
          db
            .select({ id: tileColours.id })
            .from(tileColours)
            .where(eq(tileColours.tileId, tiles.id)),
        ),
        readableBy(reader),
      ),
    )
    .orderBy(asc(tiles.id))
    .limit(200);
  const read = await listColours(
    db,
    rows.map(({ id }) => id),
  );
  return rows.map((row) => ({
    ...row,
    // The schema bounds its shape; it was taken from the list of cones.
    cone: row.cone as Cone,
    colours: inUseOf(read.get(row.id) ?? []),
  }));
}
