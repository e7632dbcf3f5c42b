import {
  and,
  asc,
  desc,
  eq,
  exists,
  gt,
  gte,
  inArray,
  isNull,
  lte,
  or,
  type SQL,
  sql,
} from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import { type Cone, cones } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { foldName } from "./names.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  materialNames,
  materials,
  people,
  photos,
  recipes,
  revisionLines,
  revisionStandings,
  revisions,
  standings as standingWords,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";
import type { StandingIs } from "./standing.ts";
import { findStandings, isApprovedAt } from "./standings.ts";

export type Search = {
  q?: string | undefined;
  cone?: Cone | undefined;
  use?: Use | undefined;
  surface?: string | undefined;
  atmosphere?: Atmosphere | undefined;
  standing?: StandingIs | undefined;
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

/** An approval that is yet to be settled, or past its time, reads as needing another look. */
const standingAt = (now: Date): SQL<StandingIs> =>
  sql<StandingIs>`case when ${revisionStandings.is} = 'approved' and not ${isApprovedAt(now)} then 'needs another look' else ${revisionStandings.is} end`;

function matching(
  db: Db,
  { q, cone, use, surface, atmosphere, standing }: Search,
  now: Date,
): (SQL | undefined)[] {
  return [
    standing && eq(standingAt(now), standing),
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

type Tested = { cones: string[]; picture: { sha256: string; alt: string } | null };

/** What tiles say of each melt alone, whichever recipe they were fired for, as far as the reader may know. */
async function findTestedMelts(
  db: Db,
  { melts, reader }: { melts: string[]; reader: Reader },
): Promise<Map<string, Tested>> {
  if (melts.length === 0) return new Map();
  const rows = await db
    .select({
      melt: revisions.meltDigest,
      cone: tiles.cone,
      sha256: photos.sha256,
      alt: photos.alt,
    })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .leftJoin(photos, eq(photos.tileId, tiles.id))
    .where(
      and(
        inArray(revisions.meltDigest, melts),
        isNull(tileWithdrawals.tileId),
        isNull(tiles.overId),
        readableBy(reader),
      ),
    )
    .orderBy(asc(tiles.id), asc(photos.id));
  const tested = new Map<string, Tested>();
  for (const { melt, cone, sha256, alt } of rows) {
    const known = tested.get(melt) ?? { cones: [], picture: null };
    if (!known.cones.includes(cone)) known.cones.push(cone);
    if (!known.picture && sha256 !== null) known.picture = { sha256, alt: alt ?? "" };
    tested.set(melt, known);
  }
  return tested;
}
