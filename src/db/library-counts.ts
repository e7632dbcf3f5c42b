import { and, type SQL, sql } from "drizzle-orm";
import { type Cone, cones } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Search } from "./library.ts";
import { narrowing, readableHead } from "./library-narrowing.ts";
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

/** Counts in one statement, of which no part counts further than a thousand and one. */
export async function countStrips(db: Db, wanted: Wanted): Promise<Counts> {
  const { search, now, reader } = wanted;
  const { colour, terms } = search;
  const { cone, use, atmosphere, standing, ...rest } = search;
  const answered = { cone, use, atmosphere, standing };
  const base = and(
    terms && askedFor(terms),
    readableHead(reader),
    colour &&
      sql`(${recipeHeads.meltDigest}, ${recipeHeads.atmosphere}) in (select melt, atmosphere from coloured)`,
    ...narrowing(rest, now),
  );
  // What has the words is looked for once; what is only narrowed is read from the indexes each time.
  const matched = sql`, matched as materialized (
    select ${recipeHeads}.* from ${heads(search)} where ${base ?? sql`true`})`;
  const from = terms ? sql`matched as ${recipeHeads}` : sql`${recipeHeads}`;
  const few = (different: Partial<Search>, which?: SQL) => sql`(select count(*)::int from (
    select 1 from ${from}
    where ${and(terms ? undefined : base, ...narrowing({ ...answered, ...different }, now), which) ?? sql`true`}
    limit ${sql.raw(String(enough + 1))}) as few)`;
  const each = <Value extends string>(
    of: readonly Value[],
    as: (value: Value) => Partial<Search>,
  ) =>
    sql`json_build_object(${sql.join(
      of.map((value) => sql`${sql.raw(`'${value}'`)}, ${few(as(value))}`),
      sql`, `,
    )})`;
  const inPair = sql`${recipeHeads.coneLowPlace} = pairs.low and ${recipeHeads.coneHighPlace} = pairs.high`;
  const coloured = colour
    ? sql`, coloured as materialized (${colouredMelts(db, { reader, colour })})`
    : sql``;
  const [row] = await db
    .select({
      counts: sql<{
        all: number;
        pairs: [low: number, high: number, count: number][] | null;
        use: Record<string, number>;
        atmosphere: Record<string, number>;
        standing: Record<string, number>;
      }>`counts`,
    })
    .from(sql`(with recursive ${pairs}${coloured}${terms ? matched : sql``}
      select json_build_object(
        'all', ${few({})},
        'pairs', (select json_agg(json_build_array(pairs.low, pairs.high, ${few({ cone: undefined }, inPair)})) from pairs),
        'use', ${each(uses, (use) => ({ use }))},
        'atmosphere', ${each(atmospheres, (atmosphere) => ({ atmosphere }))},
        'standing', ${each(standings, (standing) => ({ standing }))}) as counts) as counted`);
  if (!row) throw new Error("a statement without FROM answers a row");
  const { all, pairs: counted, ...facets } = row.counts;
  return {
    all: capped(all),
    cone: byCone(counted ?? []),
    use: cappedEach(facets.use),
    atmosphere: cappedEach(facets.atmosphere),
    standing: cappedEach(facets.standing),
  };
}

/** Every stretch of cones that any recipe is for, found by leaping from one to the next in the index. */
const pairs = sql`pairs as (
  (select cone_low_place as low, cone_high_place as high from recipe_heads
    order by cone_low_place, cone_high_place limit 1)
  union all
  select further.low, further.high from pairs cross join lateral (
    select cone_low_place as low, cone_high_place as high from recipe_heads
    where (cone_low_place, cone_high_place) > (pairs.low, pairs.high)
    order by cone_low_place, cone_high_place limit 1) as further)`;

function byCone(counted: readonly (readonly [low: number, high: number, count: number])[]) {
  const found: Counts["cone"] = {};
  cones.forEach((cone, place) => {
    const within = counted.filter(([low, high]) => low <= place && place <= high);
    const sum = within.reduce((all, [, , count]) => all + count, 0);
    if (sum > 0) found[cone] = capped(sum);
  });
  return found;
}

const cappedEach = (counts: Readonly<Record<string, number>>): Record<string, Count> =>
  Object.fromEntries(
    Object.entries(counts).flatMap(([value, count]) => (count > 0 ? [[value, capped(count)]] : [])),
  );

const capped = (count: number): Count => (count > enough ? "1000+" : count);
