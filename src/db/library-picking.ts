import { and, isNull, type SQL, sql } from "drizzle-orm";
import type { LabTriple } from "../chem/plain-colours.ts";
import type { Db } from "./client.ts";
import type { Search } from "./library.ts";
import { isFunctional, isNotFunctional, narrowing, readableHead } from "./library-narrowing.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  recipeHeads,
  recipes,
  recipeWords,
  revisions,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";
import { askedFor, pointsFor } from "./search-terms.ts";
import { newestColours } from "./wall-pieces.ts";

/**
 * Where a page ends. `key` is what the list goes by before the names: 0 for what is approved as
 * functional and 1 for the rest; how well it answers, less being better; or how far its colour is.
 */
export type Place = { by: "name" | "words" | "colour"; key: number; nameKey: string; id: string };

type Wanted = {
  reader: Reader;
  now: Date;
  search: Search;
  after?: Place | undefined;
  limit: number;
};

/** How far a list in the order of likeness goes. */
const best = 200;

/** What a search is put in order by. */
export const orderOf = ({ terms, colour }: Search): Place["by"] =>
  colour ? "colour" : terms ? "words" : "name";

export type Picked = { id: string; revisionId: string; nameKey: string; key: number };

/** The heads of one page, in its order, with one more where there is one. */
export const pick = (db: Db, wanted: Wanted): Promise<Picked[]> =>
  db
    .select({
      id: sql<string>`picked.recipe_id`,
      revisionId: sql<string>`picked.revision_id`,
      nameKey: sql<string>`picked.name_key`,
      key: sql<number>`picked.key`,
    })
    .from(sql`(${picked(db, wanted)}) as picked`)
    .orderBy(sql`picked.key`, sql`picked.name_key`, sql`picked.recipe_id`)
    .limit(wanted.limit + 1);

function picked(db: Db, wanted: Wanted): SQL {
  switch (orderOf(wanted.search)) {
    case "name":
      return pickByName(wanted);
    case "words":
      return pickBest(wanted, sql`-(${pointsOf(wanted.search)})::float8`, heads(wanted.search));
    case "colour":
      return pickBest(wanted, sql`near.distance`, nearTo(db, wanted));
  }
}

const told = sql`${recipeHeads.recipeId}, ${recipeHeads.revisionId}, ${recipeHeads.nameKey}`;

/**
 * Each of the two groups is in the order of an index, so that a page reads little more than it shows;
 * of the second no more is read than would fill a page alone.
 */
function pickByName({ reader, now, search, after, limit }: Wanted): SQL {
  const shown = and(readableHead(reader), ...narrowing(search, now));
  const group = (key: number, which: SQL | undefined) => sql`
    (select ${told}, ${sql.raw(String(key))}::float8 as key from ${recipeHeads}
    where ${and(which, shown, after?.key === key ? further(after) : undefined)}
    order by ${recipeHeads.nameKey}, ${recipeHeads.recipeId} limit ${limit + 1})`;
  const rest = group(1, isNotFunctional(now));
  return after?.key === 1 ? rest : sql`${group(0, isFunctional(now))} union all ${rest}`;
}

const further = ({ nameKey, id }: Place): SQL =>
  sql`(${recipeHeads.nameKey}, ${recipeHeads.recipeId}) > (${nameKey}, ${id}::uuid)`;

function pickBest({ reader, now, search, after }: Wanted, key: SQL, from: SQL): SQL {
  const { terms } = search;
  const shown = and(terms && askedFor(terms), readableHead(reader), ...narrowing(search, now));
  const found = sql`
    select ${told}, ${key} as key from ${from} where ${shown ?? sql`true`}
    order by key, ${recipeHeads.nameKey}, ${recipeHeads.recipeId} limit ${best}`;
  if (!after) return found;
  const { key: last, nameKey, id } = after;
  return sql`
    select * from (${found}) as best
    where best.key > ${last}::float8
      or (best.key = ${last}::float8 and (best.name_key, best.recipe_id) > (${nameKey}, ${id}::uuid))`;
}

/** What the heads that a search is about are read from. */
export const heads = ({ terms }: Search): SQL =>
  terms
    ? sql`${recipeWords} join ${recipeHeads} on ${recipeHeads.recipeId} = ${recipeWords.recipeId}`
    : sql`${recipeHeads}`;

/** A name that is just what was typed, or begins with it, comes before all else. */
function pointsOf({ terms = [], typed = "" }: Search): SQL {
  const key = recipeHeads.nameKey;
  const named = sql`case when ${key} = ${typed} then 100 when starts_with(${key}, ${typed}) then 20 else 0 end`;
  return terms.length === 0 ? named : sql`${named} + ${pointsFor(terms)}`;
}

function nearTo(db: Db, { search, reader }: Wanted): SQL {
  const { colour } = search;
  if (!colour) return heads(search);
  return sql`(${colouredMelts(db, { reader, colour })}) as near
    join ${recipeHeads} on ${recipeHeads.meltDigest} = near.melt and ${recipeHeads.atmosphere} = near.atmosphere
    ${search.terms ? sql`join ${recipeWords} on ${recipeWords.recipeId} = ${recipeHeads.recipeId}` : sql``}`;
}

/**
 * Each glaze as it was fired (`melt`, `atmosphere`) that has a tile with a colour by itself, as far as
 * the reader may know of it, and the square of how far the nearest of these is in L*a*b*.
 */
export function colouredMelts(
  db: Db,
  { reader, colour: [lightness, a, b] }: { reader: Reader; colour: LabTriple },
): SQL {
  const colour = newestColours(db);
  const square = (of: SQL, wanted: number) =>
    sql`(${of} - ${wanted}::float8) * (${of} - ${wanted}::float8)`;
  const distance = sql`${square(sql`${colour.lightness}`, lightness)} + ${square(sql`${colour.a}`, a)} + ${square(sql`${colour.b}`, b)}`;
  return sql`${db
    .select({
      melt: sql`${revisions.meltDigest}`.as("melt"),
      atmosphere: sql`${tiles.atmosphere}`.as("atmosphere"),
      distance: sql`min(${distance})`.as("distance"),
    })
    .from(tiles)
    .innerJoin(revisions, sql`${revisions.id} = ${tiles.revisionId}`)
    .innerJoin(recipes, sql`${recipes.id} = ${revisions.recipeId}`)
    .innerJoin(colour, sql`${colour.tileId} = ${tiles.id}`)
    .leftJoin(tileWithdrawals, sql`${tileWithdrawals.tileId} = ${tiles.id}`)
    .where(and(isNull(tileWithdrawals.tileId), isNull(tiles.overId), readableBy(reader)))
    .groupBy(sql`1`, sql`2`)}`;
}
