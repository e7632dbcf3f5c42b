import {
  and,
  arrayOverlaps,
  eq,
  gte,
  inArray,
  isNull,
  lte,
  ne,
  not,
  or,
  type SQL,
  sql,
} from "drizzle-orm";
import { cones } from "../chem/cones.ts";
import type { Search } from "./library.ts";
import { contains } from "./library-search.ts";
import { foldName } from "./names.ts";
import type { Reader } from "./recipes.ts";
import { recipeHeads } from "./schema/index.ts";
import type { StandingIs } from "./standing.ts";

/** `readableBy`, asked of the row that a recipe's head has in `recipe_heads`. */
export const readableHead = (reader: Reader): SQL | undefined => {
  if (!reader) return eq(recipeHeads.shownTo, "public");
  if (reader.role === "manager") return undefined;
  return or(ne(recipeHeads.shownTo, "private"), eq(recipeHeads.ownerId, reader.id));
};

/** What a search asks of a head beside its words and its colour, each as a condition of its own. */
export function narrowing(search: Search, now: Date): (SQL | undefined)[] {
  const { cone, use, surface, atmosphere, standing, without = [], oxides = [] } = search;
  return [
    cone && lte(recipeHeads.coneLowPlace, cones.indexOf(cone)),
    cone && gte(recipeHeads.coneHighPlace, cones.indexOf(cone)),
    use && eq(recipeHeads.use, use),
    atmosphere && eq(recipeHeads.atmosphere, atmosphere),
    surface ? sql`${recipeHeads.surfaceKey} like ${contains(foldName(surface))}` : undefined,
    standing && countsAs(standing, now),
    search.makers && inArray(recipeHeads.ownerId, [...search.makers]),
    search.among && among(search.among),
    without.length > 0 ? not(arrayOverlaps(recipeHeads.materials, [...without])) : undefined,
    ...oxides.flatMap(({ oxide, least, most }) => [
      least === undefined ? undefined : gte(recipeHeads[`unity${oxide}`], least),
      most === undefined ? undefined : lte(recipeHeads[`unity${oxide}`], most),
    ]),
  ];
}

/** An approval that is yet to be settled, or past its time, counts as needing another look. */
function countsAs(standing: StandingIs, now: Date): SQL | undefined {
  const is = eq(recipeHeads.is, standing);
  if (standing === "approved") return and(is, holds(now));
  if (standing !== "needs another look") return is;
  return or(is, and(eq(recipeHeads.is, "approved"), not(holds(now))));
}

/** What a head counts as now, as lists may show it. */
export const headStanding = (now: Date): SQL<StandingIs> =>
  sql<StandingIs>`case when ${recipeHeads.is} = 'approved' and not ${holds(now)} then 'needs another look' else ${recipeHeads.is} end`;

const holds = (now: Date): SQL =>
  sql`coalesce(${recipeHeads.approvedUntil} > ${now.toISOString()}::timestamptz, false)`;

/** Approved for what touches food, now: what a list without words begins with. */
export const isFunctional = (now: Date): SQL =>
  sql`(${recipeHeads.for} = 'functional' and ${recipeHeads.approvedUntil} is not null and ${recipeHeads.approvedUntil} > ${now.toISOString()}::timestamptz)`;

export const isNotFunctional = (now: Date): SQL | undefined =>
  or(
    isNull(recipeHeads.approvedUntil),
    sql`${recipeHeads.approvedUntil} <= ${now.toISOString()}::timestamptz`,
    sql`${recipeHeads.for} is distinct from 'functional'`,
  );

const among = (slugs: readonly string[]): SQL =>
  slugs.length === 0
    ? sql`false`
    : sql`${recipeHeads.recipeId} in (select id from recipes where slug in (${sql.join(
        slugs.map((slug) => sql`${slug}`),
        sql`, `,
      )}))`;
