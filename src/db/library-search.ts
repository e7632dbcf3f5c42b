import { and, eq, exists, gte, inArray, lte, or, type SQL, sql } from "drizzle-orm";
import { cones } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Search } from "./library.ts";
import { foldName } from "./names.ts";
import {
  materialNames,
  materials,
  people,
  recipes,
  revisionLines,
  revisionStandings,
  revisions,
} from "./schema/index.ts";
import type { StandingIs } from "./standing.ts";
import { isApprovedAt } from "./standings.ts";

/** An approval that is yet to be settled, or past its time, reads as needing another look. */
export const standingAt = (now: Date): SQL<StandingIs> =>
  sql<StandingIs>`case when ${revisionStandings.is} = 'approved' and not ${isApprovedAt(now)} then 'needs another look' else ${revisionStandings.is} end`;

/** What a search asks of a recipe's head, each as a condition of its own. */
export function matching(
  db: Db,
  { q, cone, use, surface, atmosphere, standing, among }: Search,
  now: Date,
): (SQL | undefined)[] {
  return [
    standing && eq(standingAt(now), standing),
    among && inArray(recipes.slug, [...among]),
    cone && lte(revisions.coneLowPlace, cones.indexOf(cone)),
    cone && gte(revisions.coneHighPlace, cones.indexOf(cone)),
    use && eq(revisions.use, use),
    atmosphere && eq(revisions.atmosphere, atmosphere),
    surface ? sql`lower(${revisions.surface}) like ${contains(surface.toLowerCase())}` : undefined,
    q ? mentions(db, contains(foldName(q))) : undefined,
  ];
}

/** The pattern of a LIKE that finds a text anywhere, whatever signs are in it. */
export const contains = (text: string): string => `%${text.replace(/[\\%_]/g, "\\$&")}%`;

/** By the recipe's name, its maker's, or a material of its head by any of its names. */
function mentions(db: Db, pattern: string): SQL | undefined {
  const named = db
    .select({ id: materialNames.id })
    .from(materialNames)
    .where(
      and(
        eq(materialNames.materialId, materials.id),
        sql`${materialNames.nameKey} like ${pattern}`,
      ),
    );
  const lineOf = db
    .select({ position: revisionLines.position })
    .from(revisionLines)
    .innerJoin(materials, eq(materials.id, revisionLines.materialId))
    .where(
      and(
        eq(revisionLines.revisionId, revisions.id),
        or(sql`${materials.nameKey} like ${pattern}`, exists(named)),
      ),
    );
  return or(
    sql`${recipes.nameKey} like ${pattern}`,
    sql`${people.nameKey} like ${pattern}`,
    exists(lineOf),
  );
}
