import { and, eq, isNull, not, type Placeholder, type SQL, sql } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Strip } from "./library.ts";
import { standingAt } from "./library-search.ts";
import { isRemoved } from "./pictures.ts";
import { prepared } from "./prepared.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  people,
  photos,
  type Role,
  recipes,
  revisionStandings,
  revisions,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";
import { isApprovedAt } from "./standings.ts";

/** A strip in the order in which it is asked for. */
type Read = [
  id: string,
  slug: string,
  name: string,
  ownerId: string,
  ownerName: string,
  number: number,
  use: Use,
  coneLow: string,
  coneHigh: string,
  atmosphere: Strip["atmosphere"],
  surface: string,
  standing: Strip["standing"],
  approvedNumber: number | null,
  approvedFor: Use | null,
  tiles: [cone: string, sha256: string | null, alt: string | null][] | null,
  revisionId: string,
  doubtful: boolean,
];

export type ReadStrip = { strip: Strip; revisionId: string; doubtful: boolean };

type Wanted = { revisionIds: readonly string[]; reader: Reader; now: Date };

/**
 * What the list tells of each of these heads: revision id → strip, and whether its standing is to be
 * settled before it is believed. They were found through the reader's scope.
 */
export async function readStrips(
  db: Db,
  { revisionIds, reader, now }: Wanted,
): Promise<Map<string, ReadStrip>> {
  if (revisionIds.length === 0) return new Map();
  const scope = !reader ? "visitor" : reader.role === "manager" ? "manager" : "member";
  const rows = await strips(db, scope).execute({
    heads: `{${revisionIds.join(",")}}`,
    reader: reader?.id ?? null,
    now: now.toISOString(),
  });
  return new Map(
    rows.map(({ strip }) => {
      const read = readStrip(strip);
      return [read.revisionId, read];
    }),
  );
}

/**
 * Each strip as one value: to have many columns mapped may take as long as to find them. What is
 * joined takes Postgres longer to plan than to carry out, so it is planned once.
 */
const strips = prepared((db, scope: "visitor" | "member" | "manager") => {
  const now = sql.placeholder("now");
  const reader =
    scope === "visitor" ? undefined : { id: sql.placeholder("reader"), role: scope satisfies Role };
  const isApproved = isApprovedAt(now);
  return db
    .select({
      strip: sql<Read>`json_build_array(${recipes.id}, ${recipes.slug}, ${recipes.name},
        ${people.id}, ${people.name}, ${revisions.number}, ${revisions.use}, ${revisions.coneLow},
        ${revisions.coneHigh}, ${revisions.atmosphere}, ${revisions.surface}, ${standingAt(now)},
        approval.number, approval.use, hung.tiles, ${revisions.id},
        ${revisionStandings.unsettled} or (${revisionStandings.is} = 'approved' and not ${isApproved}))`,
    })
    .from(revisions)
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(revisionStandings, eq(revisionStandings.revisionId, revisions.id))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .leftJoinLateral(sql`(${newestApproved(isApproved)}) as approval`, sql`true`)
    .leftJoinLateral(sql`(${tilesOf(db, reader)}) as hung`, sql`true`)
    .where(sql`${revisions.id} = any(${sql.placeholder("heads")}::uuid[])`)
    .prepare(`strips ${scope}`);
});

const newestApproved = (isApproved: SQL) => sql`
  select newest.number, ${revisionStandings.for} as use
  from ${revisions} newest join ${revisionStandings} on ${revisionStandings.revisionId} = newest.id
  where newest.recipe_id = ${recipes.id} and ${isApproved}
  order by newest.number desc limit 1`;

/**
 * The tiles of the same melt by itself, whichever recipe they were fired for, as far as the reader may
 * know of them, oldest first, with their pictures.
 */
const tilesOf = (db: Db, reader: Reader | { id: Placeholder; role: Role }) =>
  db
    .select({
      tiles:
        sql`json_agg(json_build_array(${tiles.cone}, ${photos.sha256}, ${photos.alt}) order by ${tiles.id}, ${photos.id})`.as(
          "tiles",
        ),
    })
    .from(sql`(select twin.id, twin.recipe_id from ${revisions} twin
      where twin.melt_digest = ${revisions.meltDigest}) as same`)
    .innerJoin(tiles, sql`${tiles.revisionId} = same.id`)
    .innerJoin(recipes, sql`${recipes.id} = same.recipe_id`)
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .leftJoin(photos, and(eq(photos.tileId, tiles.id), not(isRemoved)))
    .where(and(isNull(tileWithdrawals.tileId), isNull(tiles.overId), readableBy(reader)));

function readStrip(read: Read): ReadStrip {
  const [id, slug, name, ownerId, ownerName, number, use, low, high, atmosphere, ...more] = read;
  const [surface, standing, approvedNumber, approvedFor, hung, revisionId, doubtful] = more;
  const pictured = hung?.find(([, sha256]) => sha256 !== null);
  return {
    strip: {
      ...{ id, slug, name, owner: { id: ownerId, name: ownerName }, number, use },
      // The schema bounds their shape; they were taken from the list of cones.
      cones: { low: low as Cone, high: high as Cone },
      ...{ atmosphere, surface, standing },
      approved:
        approvedNumber === null || approvedFor === null
          ? null
          : { number: approvedNumber, for: approvedFor },
      tested: [...new Set(hung?.map(([cone]) => cone))],
      picture: pictured ? { sha256: pictured[1] ?? "", alt: pictured[2] ?? "" } : null,
    },
    revisionId,
    doubtful,
  };
}
