import { and, count, desc, eq, inArray, isNull, not, sql } from "drizzle-orm";
import { type Cone, cones } from "../chem/cones.ts";
import type { FoundBody } from "./bodies.ts";
import type { Db } from "./client.ts";
import { isRemoved } from "./pictures.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { bodies, photos, recipes, revisions, tiles, tileWithdrawals } from "./schema/index.ts";

/** The tile that shows a glaze best on a body at a cone, and whether it is of that body and cone. */
export type ShownTile = {
  id: string;
  cone: string;
  clay: string;
  onBody: boolean;
  atCone: boolean;
  defects: string[];
  picture: { sha256: string; alt: string } | null;
};

export type TilesOf = { shown: ShownTile; tested: string[] };

type Wanted = { melts: readonly string[]; reader: Reader; cone: Cone; body: string | undefined };

/** What a tile speaks for: the melt as it was fired. */
export const firedAs = ({ melt, atmosphere }: { melt: string; atmosphere: string }): string =>
  `${melt} ${atmosphere}`;

/**
 * Of the tiles of each melt by itself, as far as the reader may know of them, the one to show: on
 * that body first, then with a picture, then at that cone, then the newest. `firedAs` → tile and
 * cones, since a tile of another atmosphere is another glaze.
 */
export async function findTilesOn(db: Db, wanted: Wanted): Promise<Map<string, TilesOf>> {
  const { melts, reader, cone, body } = wanted;
  if (melts.length === 0) return new Map();
  const rows = await db
    .select({
      melt: revisions.meltDigest,
      id: tiles.id,
      cone: tiles.cone,
      atmosphere: tiles.atmosphere,
      clay: tiles.clay,
      body: bodies.slug,
      defects: tiles.defects,
      sha256: photos.sha256,
      alt: photos.alt,
    })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(bodies, eq(bodies.id, tiles.bodyId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .leftJoin(photos, and(eq(photos.tileId, tiles.id), not(isRemoved)))
    .where(
      and(
        // As one value: there may be thousands, and they are digests.
        sql`${revisions.meltDigest} = any(${`{${[...new Set(melts)].join(",")}}`}::text[])`,
        isNull(tileWithdrawals.tileId),
        isNull(tiles.overId),
        readableBy(reader),
      ),
    )
    .orderBy(desc(tiles.id), photos.id);
  const best = new Map<string, TilesOf>();
  for (const { melt, atmosphere, body: slug, sha256, alt, ...tile } of rows) {
    const onBody = body !== undefined && slug === body;
    const picture = sha256 === null ? null : { sha256, alt: alt ?? "" };
    const shown = { ...tile, onBody, atCone: tile.cone === cone, picture };
    const key = firedAs({ melt, atmosphere });
    const known = best.get(key);
    const tested = [...new Set([...(known?.tested ?? []), tile.cone])];
    const better = !known || worth(shown) > worth(known.shown);
    best.set(key, { shown: better ? shown : known.shown, tested });
  }
  return best;
}

const worth = ({ onBody, picture, atCone }: ShownTile): number =>
  (onBody ? 4 : 0) + (picture ? 2 : 0) + (atCone ? 1 : 0);

/** The body that most tiles at a cone are on, of those that are for that cone; else undefined. */
export async function usualBody(
  db: Db,
  { among, cone, reader }: { among: readonly FoundBody[]; cone: Cone; reader: Reader },
): Promise<FoundBody | undefined> {
  const fitting = among.filter(({ sheet }) => isFor(sheet.cones, cone));
  if (fitting.length === 0) return undefined;
  const rows = await db
    .select({ bodyId: tiles.bodyId, times: count() })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(
      and(
        inArray(
          tiles.bodyId,
          fitting.map(({ id }) => id),
        ),
        eq(tiles.cone, cone),
        isNull(tileWithdrawals.tileId),
        readableBy(reader),
      ),
    )
    .groupBy(tiles.bodyId);
  const times = new Map(rows.map((row) => [row.bodyId, row.times]));
  const most = Math.max(...fitting.map(({ id }) => times.get(id) ?? 0));
  return fitting.find(({ id }) => (times.get(id) ?? 0) === most);
}

/** Whether a cone is among those that a body is for. */
export const isFor = ({ low, high }: { low: Cone; high: Cone }, cone: Cone): boolean =>
  cones.indexOf(low) <= cones.indexOf(cone) && cones.indexOf(cone) <= cones.indexOf(high);
