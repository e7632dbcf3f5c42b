import { and, asc, desc, eq, gt, isNull, lt, or, type SQL, sql } from "drizzle-orm";
import { type AnyPgColumn, alias } from "drizzle-orm/pg-core";
import type { LabTriple } from "../chem/plain-colours.ts";
import type { Db } from "./client.ts";
import { contains } from "./library-search.ts";
import { readableBy } from "./recipes.ts";
import { bodies, recipes, revisions, tiles, tileWithdrawals } from "./schema/index.ts";
import type { WallPlace, WallSearch } from "./wall.ts";
import { newestColour } from "./wall-pieces.ts";

/** How far a wall in the order of colours goes. */
export const nearest = 200;

type Wanted = {
  reader: Parameters<typeof readableBy>[0];
  search: WallSearch;
  after?: WallPlace | undefined;
  limit: number;
};

const asked = alias(bodies, "asked");

/** What is told of each, read before anything is joined to it that only a page's tiles need. */
const told = {
  id: tiles.id,
  recipeSlug: sql<string>`${recipes.slug}`.as("recipe_slug"),
  recipeName: sql<string>`${recipes.name}`.as("recipe_name"),
  number: revisions.number,
  cone: tiles.cone,
  atmosphere: tiles.atmosphere,
  surface: tiles.surface,
  clay: tiles.clay,
  bodySlug: sql<string | null>`${bodies.slug}`.as("body_slug"),
  bodyName: sql<string | null>`${bodies.name}`.as("body_name"),
  defects: tiles.defects,
  overId: tiles.overId,
  firedOn: tiles.firedOn,
  at: tiles.at,
};

/** The tiles of one page, newest first, and one more where there is one. Ids are in the order of time. */
export const pickNewest = (db: Db, { reader, search, after, limit }: Wanted) =>
  db
    .select({ ...told, distance: sql<number | null>`null::float8`.as("distance") })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(bodies, eq(bodies.id, tiles.bodyId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(and(shown(db, reader, search), after && lt(tiles.id, after.id)))
    .orderBy(desc(tiles.id))
    .limit(limit + 1)
    .as("picked");

/** The nearest tiles by the square of the distance in L*a*b*; of two as near, the newer first. */
export function pickNearest(db: Db, { reader, search }: Wanted, [lightness, a, b]: LabTriple) {
  const colour = newestColour(db, tiles.id);
  const square = (column: AnyPgColumn, wanted: number) =>
    sql`(${column} - ${wanted}::float8) * (${column} - ${wanted}::float8)`;
  const distance = sql<
    number | null
  >`${square(colour.lightness, lightness)} + ${square(colour.a, a)} + ${square(colour.b, b)}`.as(
    "distance",
  );
  return db
    .select({ ...told, distance })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(bodies, eq(bodies.id, tiles.bodyId))
    .innerJoinLateral(colour, sql`true`)
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(shown(db, reader, search))
    .orderBy(asc(distance), desc(tiles.id))
    .limit(nearest)
    .as("picked");
}

export type Picking = ReturnType<typeof pickNearest> | ReturnType<typeof pickNewest>;

export const furtherThan = (picked: Picking, { distance, id }: WallPlace): SQL | undefined =>
  or(gt(picked.distance, distance), and(eq(picked.distance, distance), lt(picked.id, id)));

/** What counts, what the reader may know of, and what was asked for. */
const shown = (db: Db, reader: Wanted["reader"], search: WallSearch): SQL | undefined => {
  const { cone, body, surface, defect, atmosphere } = search;
  return and(
    isNull(tileWithdrawals.tileId),
    readableBy(reader),
    cone && eq(tiles.cone, cone),
    atmosphere && eq(tiles.atmosphere, atmosphere),
    body
      ? eq(tiles.bodyId, db.select({ id: asked.id }).from(asked).where(eq(asked.slug, body)))
      : undefined,
    surface
      ? sql`lower(coalesce(nullif(${tiles.surface}, ''), ${revisions.surface})) like ${contains(surface.toLowerCase())}`
      : undefined,
    defect === "none" ? sql`cardinality(${tiles.defects}) = 0` : undefined,
    defect && defect !== "none" ? sql`${defect}::text = any(${tiles.defects})` : undefined,
  );
};
