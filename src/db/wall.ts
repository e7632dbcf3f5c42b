import { and, asc, desc, eq, isNull, sql } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { LabTriple } from "../chem/plain-colours.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  type colourSources,
  recipes,
  revisions,
  tileColours,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";
import type { Defect } from "./tiles.ts";
import { furtherThan, type Picked, pickNearest, pickNewest } from "./wall-picking.ts";
import { newestColour, shownPicture } from "./wall-pieces.ts";

export type WallSearch = {
  cone?: Cone | undefined;
  /** A body's address. */
  body?: string | undefined;
  /** Words of the surface, as it came out; where nobody said, as the recipe says. */
  surface?: string | undefined;
  /** One that it shows, or that it shows none. */
  defect?: Defect | "none" | undefined;
  atmosphere?: Atmosphere | undefined;
  /** The nearest to it come first, of the tiles that have a colour. */
  colour?: LabTriple | undefined;
};

/** Where a page of the wall ends; `distance` where it goes by colour. */
export type WallPlace = { id: string; distance: number | null };

export type WallTile = {
  id: string;
  recipe: { slug: string; name: string };
  number: number;
  cone: Cone;
  atmosphere: Atmosphere;
  surface: string;
  /** The clay in words, the body's name where the body is on record. */
  clay: string;
  body: { slug: string; name: string } | null;
  defects: Defect[];
  /** Over another glaze: it shows the pair. */
  layered: boolean;
  firedOn: string | null;
  at: Date;
  /** The first picture that is still there. */
  picture: { sha256: string; alt: string; width: number; height: number } | null;
  /** The newest, an instrument's before a camera's. */
  colour: { lab: LabTriple; from: (typeof colourSources)[number] } | null;
};

/**
 * The tiles that the reader may know of and that count, as a wall: newest first, or nearest to a
 * colour first and then no further than the best 200.
 */
export async function listWall(
  db: Db,
  params: { reader: Reader; search: WallSearch; after?: WallPlace | undefined; limit: number },
): Promise<{ tiles: WallTile[]; next: WallPlace | null }> {
  const { search, after, limit } = params;
  const picked = search.colour ? pickNearest(db, params, search.colour) : pickNewest(db, params);
  const picture = shownPicture(db, picked.id);
  const colour = newestColour(db, picked.id);
  const rows = await db
    .select()
    .from(picked)
    .leftJoinLateral(picture, sql`true`)
    .leftJoinLateral(colour, sql`true`)
    .where(search.colour && after ? furtherThan(picked, after) : undefined)
    .orderBy(asc(picked.distance), desc(picked.id))
    .limit(limit + 1);
  const page = rows.slice(0, limit);
  const last = page.at(-1)?.picked;
  return {
    tiles: page.map(wallTile),
    next: rows.length > limit && last ? { id: last.id, distance: last.distance } : null,
  };
}

type Row = {
  picked: Picked;
  picture: WallTile["picture"];
  colour: { lightness: number; a: number; b: number; from: (typeof colourSources)[number] } | null;
};

function wallTile({ picked, picture, colour }: Row): WallTile {
  const { recipeSlug, recipeName, bodySlug, bodyName, overId, distance: _, ...told } = picked;
  return {
    ...told,
    // The schema bounds its shape; it was taken from the list of cones.
    cone: told.cone as Cone,
    recipe: { slug: recipeSlug, name: recipeName },
    body: bodySlug === null || bodyName === null ? null : { slug: bodySlug, name: bodyName },
    layered: overId !== null,
    picture,
    colour: colour && { lab: [colour.lightness, colour.a, colour.b], from: colour.from },
  };
}

/** Whether the wall could be put in the order of colours at all, for this reader. */
export async function isAnyColoured(db: Db, { reader }: { reader: Reader }): Promise<boolean> {
  const [one] = await db
    .select({ id: tileColours.id })
    .from(tileColours)
    .innerJoin(tiles, eq(tiles.id, tileColours.tileId))
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(and(isNull(tileWithdrawals.tileId), readableBy(reader)))
    .limit(1);
  return one !== undefined;
}
