import { and, eq, isNull, not, type SQL, sql } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Strip } from "./library.ts";
import { standingAt } from "./library-search.ts";
import { isRemoved } from "./pictures.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  people,
  photos,
  recipes,
  revisionStandings,
  revisions,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";
import { isApprovedAt } from "./standings.ts";

/** A strip in the order in which `stripsOf` asks for it. */
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
  tested: string[] | null,
  picture: [sha256: string, alt: string] | null,
  revisionId: string,
  doubtful: boolean,
];

type Row = { strip: Read; key: number; nameKey: string; id: string };

type Wanted = { reader: Reader; now: Date; limit: number };

/**
 * What the list tells of each head that was picked, in one statement, each as one value: to have
 * many columns mapped, or to ask once more for tiles and approvals, may take as long as to find them.
 */
export function stripsOf(db: Db, picked: SQL, { reader, now, limit }: Wanted): Promise<Row[]> {
  const strip = sql<Read>`json_build_array(${recipes.id}, ${recipes.slug}, ${recipes.name},
    ${people.id}, ${people.name}, ${revisions.number}, ${revisions.use}, ${revisions.coneLow},
    ${revisions.coneHigh}, ${revisions.atmosphere}, ${revisions.surface}, ${standingAt(now)},
    approval.number, approval.use, tested.cones, picture.told, ${revisions.id},
    ${revisionStandings.unsettled} or (${revisionStandings.is} = 'approved' and not ${isApprovedAt(now)}))`;
  return db
    .select({
      strip,
      key: sql<number>`picked.key`,
      nameKey: sql<string>`picked.name_key`,
      id: sql<string>`picked.recipe_id`,
    })
    .from(sql`(${picked}) as picked`)
    .innerJoin(recipes, sql`${recipes.id} = picked.recipe_id`)
    .innerJoin(revisions, sql`${revisions.id} = picked.revision_id`)
    .innerJoin(revisionStandings, eq(revisionStandings.revisionId, revisions.id))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .leftJoinLateral(sql`(${newestApproved(db, now)}) as approval`, sql`true`)
    .leftJoinLateral(sql`(${testedCones(db, reader)}) as tested`, sql`true`)
    .leftJoinLateral(sql`(${firstPicture(db, reader)}) as picture`, sql`true`)
    .orderBy(sql`picked.key`, sql`picked.name_key`, sql`picked.recipe_id`)
    .limit(limit) as unknown as Promise<Row[]>;
}

const newestApproved = (db: Db, now: Date) =>
  db
    .select({
      number: sql`${revisions.number}`.as("number"),
      use: sql`${revisionStandings.for}`.as("use"),
    })
    .from(revisions)
    .innerJoin(revisionStandings, eq(revisionStandings.revisionId, revisions.id))
    .where(and(sql`${revisions.recipeId} = picked.recipe_id`, isApprovedAt(now)))
    .orderBy(sql`${revisions.number} desc`)
    .limit(1);

/** The tiles of the same melt by itself, whichever recipe they were fired for, as far as the reader may know. */
const ofThisMelt = (reader: Reader): SQL | undefined =>
  and(isNull(tileWithdrawals.tileId), isNull(tiles.overId), readableBy(reader));

const testedCones = (db: Db, reader: Reader) =>
  db
    .select({ cones: sql`json_agg(${tiles.cone} order by ${tiles.id})`.as("cones") })
    .from(sql`(${sameMelt}) as same`)
    .innerJoin(tiles, sql`${tiles.revisionId} = same.id`)
    .innerJoin(recipes, sql`${recipes.id} = same.recipe_id`)
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(ofThisMelt(reader));

const firstPicture = (db: Db, reader: Reader) =>
  db
    .select({ told: sql`json_build_array(${photos.sha256}, ${photos.alt})`.as("told") })
    .from(sql`(${sameMelt}) as same`)
    .innerJoin(tiles, sql`${tiles.revisionId} = same.id`)
    .innerJoin(recipes, sql`${recipes.id} = same.recipe_id`)
    .innerJoin(photos, eq(photos.tileId, tiles.id))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(and(ofThisMelt(reader), not(isRemoved)))
    .orderBy(tiles.id, photos.id)
    .limit(1);

const sameMelt = sql`select twin.id, twin.recipe_id from ${revisions} twin where twin.melt_digest = ${revisions.meltDigest}`;

export function readStrip(read: Read): { strip: Strip; revisionId: string; doubtful: boolean } {
  const [id, slug, name, ownerId, ownerName, number, use, low, high, ...more] = read;
  const [atmosphere, surface, standing, approvedNumber, approvedFor, tested, picture] = more;
  const [, , , , , , , revisionId, doubtful] = more;
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
      tested: [...new Set(tested ?? [])],
      picture: picture && { sha256: picture[0], alt: picture[1] },
    },
    revisionId,
    doubtful,
  };
}
