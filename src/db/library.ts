import { and, asc, desc, eq, gt, inArray, or, type SQL } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { matching, standingAt } from "./library-search.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  people,
  recipes,
  revisionStandings,
  revisions,
  standings as standingWords,
} from "./schema/index.ts";
import type { StandingIs } from "./standing.ts";
import { findStandings, isApprovedAt } from "./standings.ts";
import { findTestedMelts } from "./tested-melts.ts";

export type Search = {
  q?: string | undefined;
  cone?: Cone | undefined;
  use?: Use | undefined;
  surface?: string | undefined;
  atmosphere?: Atmosphere | undefined;
  standing?: StandingIs | undefined;
  /** Only these recipes, by their addresses. */
  among?: readonly string[] | undefined;
};

/** The words that a standing is searched by. */
export { standingWords };

export type Strip = {
  id: string;
  slug: string;
  name: string;
  owner: { id: string; name: string };
  number: number;
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: Atmosphere;
  surface: string;
  /** Of the head. */
  standing: StandingIs;
  /** The newest revision that is approved, where one is, and what for. */
  approved: { number: number; for: Use } | null;
  /** Cones at which a tile of the same melt came out of a kiln. */
  tested: string[];
  picture: { sha256: string; alt: string } | null;
};

/** A page of the library in the order of names; `after` is the last name and id of the page before. */
export async function listStrips(
  db: Db,
  params: {
    reader: Reader;
    now: Date;
    search: Search;
    after?: { nameKey: string; id: string } | undefined;
    limit: number;
  },
): Promise<{ strips: Strip[]; next: { nameKey: string; id: string } | null }> {
  const { reader, now, search, after, limit } = params;
  const rows = await db
    .select({
      id: recipes.id,
      slug: recipes.slug,
      name: recipes.name,
      nameKey: recipes.nameKey,
      owner: { id: people.id, name: people.name },
      revisionId: revisions.id,
      number: revisions.number,
      use: revisions.use,
      coneLow: revisions.coneLow,
      coneHigh: revisions.coneHigh,
      atmosphere: revisions.atmosphere,
      surface: revisions.surface,
      meltDigest: revisions.meltDigest,
      standing: standingAt(now),
    })
    .from(recipes)
    .innerJoin(
      revisions,
      and(eq(revisions.recipeId, recipes.id), eq(revisions.number, recipes.head)),
    )
    .innerJoin(revisionStandings, eq(revisionStandings.revisionId, revisions.id))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(and(readableBy(reader), afterKey(after), ...matching(db, search, now)))
    .orderBy(asc(recipes.nameKey), asc(recipes.id))
    .limit(limit + 1);
  const page = rows.slice(0, limit);
  const last = page.at(-1);
  const melts = await findTestedMelts(db, { melts: page.map((row) => row.meltDigest), reader });
  // What is shown is settled first; what a standing was searched by is as it was kept.
  const standings = await findStandings(db, {
    revisionIds: page.map((row) => row.revisionId),
    now,
  });
  const approved = await findApprovedOf(db, { recipeIds: page.map((row) => row.id), now });
  return {
    strips: page.map(({ nameKey: _, revisionId, coneLow, coneHigh, meltDigest, ...row }) => ({
      ...row,
      standing: standings.get(revisionId)?.is ?? row.standing,
      cones: { low: coneLow as Cone, high: coneHigh as Cone },
      approved: approved.get(row.id) ?? null,
      tested: melts.get(meltDigest)?.cones ?? [],
      picture: melts.get(meltDigest)?.picture ?? null,
    })),
    next: rows.length > limit && last ? { nameKey: last.nameKey, id: last.id } : null,
  };
}

const afterKey = (after: { nameKey: string; id: string } | undefined): SQL | undefined =>
  after &&
  or(
    gt(recipes.nameKey, after.nameKey),
    and(eq(recipes.nameKey, after.nameKey), gt(recipes.id, after.id)),
  );

/** The newest approved revision of each recipe that has one: recipe id → its number and use. */
async function findApprovedOf(
  db: Db,
  { recipeIds, now }: { recipeIds: string[]; now: Date },
): Promise<Map<string, { number: number; for: Use }>> {
  if (recipeIds.length === 0) return new Map();
  const rows = await db
    .selectDistinctOn([revisions.recipeId], {
      recipeId: revisions.recipeId,
      number: revisions.number,
      for: revisionStandings.for,
    })
    .from(revisionStandings)
    .innerJoin(revisions, eq(revisions.id, revisionStandings.revisionId))
    .where(and(inArray(revisions.recipeId, recipeIds), isApprovedAt(now)))
    .orderBy(revisions.recipeId, desc(revisions.number));
  return new Map(
    rows.flatMap(({ recipeId, number, for: use }) =>
      use === null ? [] : [[recipeId, { number, for: use }]],
    ),
  );
}
