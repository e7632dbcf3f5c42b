import { and, type SQL, sql } from "drizzle-orm";
import { type Cone, cones } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Search } from "./library.ts";
import { headStanding, narrowing, readableHead } from "./library-narrowing.ts";
import { colouredMelts, heads } from "./library-picking.ts";
import type { Reader } from "./recipes.ts";
import { atmospheres, recipeHeads, standings, uses } from "./schema/index.ts";
import { askedFor } from "./search-terms.ts";

/** How many recipes; beyond a thousand nobody counts on. */
export type Count = number | "1000+";

/** How many recipes fit all of a search, and how many would with another cone, use, … in its place. */
export type Counts = {
  all: Count;
  cone: Partial<Record<Cone, Count>>;
  use: Record<string, Count>;
  atmosphere: Record<string, Count>;
  standing: Record<string, Count>;
};

const enough = 1000;

type Wanted = { reader: Reader; now: Date; search: Search };

/** All recipes that are the same in everything that is counted. */
type Kind = {
  low: number;
  high: number;
  use: string;
  atmosphere: string;
  standing: string;
  recipes: number;
};

type Facet = "cone" | "use" | "atmosphere" | "standing";

/**
 * Counts from one look at every recipe that the rest of the search fits. To count each answer by
 * itself, to a thousand and no further, reads more: where two things are asked for at once, what has
 * both may lie so far apart in every index that each count reads most of it.
 */
export async function countStrips(db: Db, wanted: Wanted): Promise<Counts> {
  const { search } = wanted;
  const kinds = (await countKinds(db, wanted)).map((kind) => ({
    ...kind,
    against: misfits(kind, search),
  }));
  /** Of what fits in all but perhaps this. */
  const sum = (facet: Facet | undefined, which: (kind: Kind) => boolean = () => true) =>
    kinds
      .filter((kind) => which(kind) && kind.against.every((each) => each === facet))
      .reduce((all, { recipes }) => all + recipes, 0);
  const each = (facet: Exclude<Facet, "cone">, values: readonly string[]) =>
    counted(values.map((value) => [value, sum(facet, (kind) => kind[facet] === value)]));
  return {
    all: capped(sum(undefined)),
    cone: counted(
      cones.map((cone) => [cone, sum("cone", (kind) => isWithin(kind, cone))]),
    ) as Counts["cone"],
    use: each("use", uses),
    atmosphere: each("atmosphere", atmospheres),
    standing: each("standing", standings),
  };
}

const isWithin = ({ low, high }: Kind, cone: Cone): boolean =>
  low <= cones.indexOf(cone) && cones.indexOf(cone) <= high;

/** What is asked for and this kind is not. */
function misfits(kind: Kind, { cone, use, atmosphere, standing }: Search): Facet[] {
  const fits: [Facet, boolean][] = [
    ["cone", cone === undefined || isWithin(kind, cone)],
    ["use", use === undefined || use === kind.use],
    ["atmosphere", atmosphere === undefined || atmosphere === kind.atmosphere],
    ["standing", standing === undefined || standing === kind.standing],
  ];
  return fits.flatMap(([facet, does]) => (does ? [] : [facet]));
}

function countKinds(db: Db, { reader, now, search }: Wanted): Promise<Kind[]> {
  const { cone: _, use: __, atmosphere: ___, standing: ____, ...rest } = search;
  const { colour, terms } = rest;
  const coloured: SQL | undefined =
    colour &&
    sql`(${recipeHeads.meltDigest}, ${recipeHeads.atmosphere}) in (
      select melt, atmosphere from (${colouredMelts(db, { reader, colour })}) as coloured)`;
  return db
    .select({
      low: sql<number>`${recipeHeads.coneLowPlace}`,
      high: sql<number>`${recipeHeads.coneHighPlace}`,
      use: sql<string>`${recipeHeads.use}`,
      atmosphere: sql<string>`${recipeHeads.atmosphere}`,
      standing: headStanding(now),
      recipes: sql<number>`count(*)::int`,
    })
    .from(heads(search))
    .where(and(terms && askedFor(terms), readableHead(reader), coloured, ...narrowing(rest, now)))
    .groupBy(sql`1, 2, 3, 4, 5`);
}

const counted = (counts: readonly (readonly [string, number])[]): Record<string, Count> =>
  Object.fromEntries(
    counts.flatMap(([value, count]) => (count > 0 ? [[value, capped(count)]] : [])),
  );

const capped = (count: number): Count => (count > enough ? "1000+" : count);
