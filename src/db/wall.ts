import { and, asc, desc, eq, isNull, sql } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { LabTriple } from "../chem/plain-colours.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { prepared } from "./prepared.ts";
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
import { type Hung, hungTile, wallTile } from "./wall-hung.ts";
import { furtherThan, type Picking, pickNearest, pickNewest } from "./wall-picking.ts";
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

type Wanted = {
  reader: Reader;
  search: WallSearch;
  after?: WallPlace | undefined;
  limit: number;
};

/**
 * The tiles that the reader may know of and that count, as a wall: newest first, or nearest to a
 * colour first and then no further than the best 200.
 */
export async function listWall(
  db: Db,
  wanted: Wanted,
): Promise<{ tiles: WallTile[]; next: WallPlace | null }> {
  const { limit } = wanted;
  const rows = (await askFor(db, wanted)).map(({ hung }) => hung);
  const last = rows[limit - 1];
  return {
    tiles: rows.slice(0, limit).map(wallTile),
    next: rows.length > limit && last ? { id: last[0], distance: last[1] } : null,
  };
}

/** One more than the limit where there is one. */
function askFor(db: Db, { reader, search, after, limit }: Wanted): Promise<{ hung: Hung }[]> {
  if (search.colour) {
    const picked = pickNearest(db, { reader, search, limit }, search.colour);
    return hang(db, picked)
      .where(after && furtherThan(picked, after))
      .orderBy(asc(picked.distance), desc(picked.id))
      .limit(limit + 1);
  }
  if (after || Object.values(search).some((value) => value !== undefined)) {
    const picked = pickNewest(db, { reader, search, after, limit });
    return hang(db, picked).orderBy(desc(picked.id));
  }
  const scope = !reader ? "visitor" : reader.role === "manager" ? "manager" : "member";
  return newest(db, scope, limit).execute({ reader: reader?.id });
}

/** The wall as it is opened, which Postgres takes as long to plan as to carry out. */
const newest = prepared((db, scope: "visitor" | "member" | "manager", limit: number) => {
  const reader = scope === "visitor" ? undefined : { id: sql.placeholder("reader"), role: scope };
  const picked = pickNewest(db, { reader, search: {}, limit });
  // Postgres keeps a plan that is as good as one made for the values: it has to know the limit.
  picked._.sql.inlineParams();
  return hang(db, picked).orderBy(desc(picked.id)).prepare("newest");
});

function hang(db: Db, picked: Picking) {
  const picture = shownPicture(db, picked.id);
  const colour = newestColour(db, picked.id);
  return db
    .select({ hung: hungTile(picked, picture, colour) })
    .from(picked)
    .leftJoinLateral(picture, sql`true`)
    .leftJoinLateral(colour, sql`true`);
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
