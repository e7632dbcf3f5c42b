import { asc, eq, inArray } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import { chemistries, revisions } from "./schema/index.ts";

/** A revision as far as its standing is concerned. */
export type Target = {
  id: string;
  recipeId: string;
  number: number;
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: string;
  meltDigest: string;
  digest: string;
  stops: number;
  leachElements: string[] | null;
};

/** Some revisions as their standing sees them, in the order of their ids. */
export async function findTargets(db: Db, ids: readonly string[]): Promise<Target[]> {
  if (ids.length === 0) return [];
  const rows = await db
    .select({
      revision: revisions,
      stops: chemistries.stops,
      leachElements: chemistries.leachElements,
    })
    .from(revisions)
    .innerJoin(chemistries, eq(chemistries.revisionId, revisions.id))
    .where(inArray(revisions.id, [...ids]))
    .orderBy(asc(revisions.id));
  return rows.map(({ revision, ...rest }) => ({
    id: revision.id,
    recipeId: revision.recipeId,
    number: revision.number,
    use: revision.use,
    cones: { low: revision.coneLow as Cone, high: revision.coneHigh as Cone },
    atmosphere: revision.atmosphere,
    meltDigest: revision.meltDigest,
    digest: revision.digest,
    ...rest,
  }));
}
