import type { Decimal } from "decimal.js";
import { and, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { type Act, appendEvent } from "./events.ts";
import { buckets, type firingKinds, revisions, tiles, tileWithdrawals } from "./schema/index.ts";
import type { Application, Defect, Movement, Transparency } from "./tiles.ts";
import { unsettleMelt } from "./unsettling.ts";

type Fired = {
  cone: Cone;
  /** That of the firing, else that of the revision, where nothing is said. */
  atmosphere?: Atmosphere | undefined;
  /** The clay in words; that of the body where one is given. */
  clay: string;
  /** A calendar day, such as 2026-03-01; that of the firing where one is given. */
  firedOn: string | null;
  remark: string;
  body?: { id: string; name: string } | undefined;
  firing?: { id: string; kind: (typeof firingKinds)[number]; startedAt: Date } | undefined;
  bisqueCone?: Cone | undefined;
  thicknessMm?: Decimal | undefined;
  place?: string | undefined;
  surface?: string | undefined;
  transparency?: Transparency | undefined;
  movement?: Movement | undefined;
  defects?: readonly Defect[] | undefined;
  application?: Application | undefined;
  /** Of dipping or pouring. */
  seconds?: Decimal | undefined;
  coats?: number | undefined;
  /** Of the slurry that it was glazed from. */
  specificGravity?: Decimal | undefined;
  /** What stood beside it in the kiln. */
  beside?: string | undefined;
  /** The bucket that it proves, found through the reader's scope. */
  bucketId?: string | undefined;
  /** The revision that this one lies over, found through the reader's scope. */
  overId?: string | undefined;
};

export type NewTile =
  | { kind: "added"; id: string }
  | { kind: "no-such-revision" }
  /** A bisque firing carries no glaze. */
  | { kind: "bisque-firing" }
  /** What was said is not what the firing or the body says. */
  | { kind: "other-atmosphere"; atmosphere: Atmosphere }
  | { kind: "other-day"; day: string }
  | { kind: "other-clay"; clay: string }
  | { kind: "over-itself" }
  /** A bucket is proved by its own melt, and by that alone. */
  | { kind: "other-melt-in-bucket" }
  | { kind: "layered-proof" };

/** Puts a fired tile on record, of one revision of a recipe that was found through the reader's scope. */
export async function addTile(
  db: Db,
  params: Act & Fired & { by: string; recipeId: string; number: number },
): Promise<NewTile> {
  const { recipeId, number, cone, remark, by, at } = params;
  const { body, firing, place = "", surface = "", defects = [] } = params;
  const { beside = "", bucketId = null, overId = null } = params;
  return db.transaction(async (tx) => {
    const [revision] = await tx
      .select({ id: revisions.id, melt: revisions.meltDigest, atmosphere: revisions.atmosphere })
      .from(revisions)
      .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)));
    if (!revision) return { kind: "no-such-revision" };
    if (overId === revision.id) return { kind: "over-itself" };
    if (bucketId && overId) return { kind: "layered-proof" };
    if (bucketId && (await meltInBucket(tx, bucketId)) !== revision.melt)
      return { kind: "other-melt-in-bucket" };
    const follows = whatFollows(params, revision.atmosphere);
    if (follows.kind !== "follows") return follows;
    const id = uuidv7();
    const { atmosphere, clay, firedOn } = follows;
    await tx.insert(tiles).values({
      id,
      revisionId: revision.id,
      cone,
      atmosphere,
      clay,
      firedOn,
      remark,
      bodyId: body?.id ?? null,
      firingId: firing?.id ?? null,
      bisqueCone: params.bisqueCone ?? null,
      thicknessMm: params.thicknessMm ?? null,
      place,
      surface,
      defects: [...new Set(defects)],
      transparency: params.transparency ?? null,
      movement: params.movement ?? null,
      application: params.application ?? null,
      seconds: params.seconds ?? null,
      coats: params.coats ?? null,
      specificGravity: params.specificGravity ?? null,
      beside,
      bucketId,
      overId,
      by,
      at,
    });
    await unsettleMelt(tx, revision.melt);
    const detail = {
      revision: revision.id,
      melt: revision.melt,
      cone,
      atmosphere,
      ...(body && { body: body.id }),
      ...(firing && { firing: firing.id }),
      ...(bucketId && { bucket: bucketId }),
      ...(overId && { over: overId }),
    };
    const happening = { kind: "tile added", subject: "tile", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

/** The melt that a bucket was mixed from. */
async function meltInBucket(tx: Db, bucketId: string): Promise<string | undefined> {
  const [filled] = await tx
    .select({ melt: revisions.meltDigest })
    .from(buckets)
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .where(eq(buckets.id, bucketId));
  return filled?.melt;
}

type Follows = { kind: "follows"; atmosphere: Atmosphere; clay: string; firedOn: string | null };

/** What a tile need not be asked where its firing and its body are known; being asked, it has to agree. */
function whatFollows(
  { body, firing, atmosphere, clay, firedOn }: Fired,
  usual: Atmosphere,
): Follows | Exclude<NewTile, { kind: "added" | "no-such-revision" }> {
  if (body && clay !== "" && clay !== body.name) return { kind: "other-clay", clay: body.name };
  const known = { kind: "follows", clay: body?.name ?? clay } as const;
  if (!firing) return { ...known, atmosphere: atmosphere ?? usual, firedOn };
  const day = firing.startedAt.toISOString().slice(0, 10);
  if (firing.kind === "bisque") return { kind: "bisque-firing" };
  if (atmosphere !== undefined && atmosphere !== firing.kind)
    return { kind: "other-atmosphere", atmosphere: firing.kind };
  if (firedOn !== null && firedOn !== day) return { kind: "other-day", day };
  return { ...known, atmosphere: firing.kind, firedOn: day };
}

export type TileWithdrawal = { kind: "withdrawn" } | { kind: "withdrawn-before" };

/** Withdraws a tile, for good and with the reason: it stays on record and counts for nothing. */
export async function withdrawTile(
  db: Db,
  { tileId, why, by, at }: Act & { by: string; tileId: string; why: string },
): Promise<TileWithdrawal> {
  return db.transaction(async (tx) => {
    const [made] = await tx
      .insert(tileWithdrawals)
      .values({ tileId, why, by, at })
      .onConflictDoNothing()
      .returning({ tileId: tileWithdrawals.tileId });
    if (!made) return { kind: "withdrawn-before" };
    const [tile] = await tx
      .select({ melt: revisions.meltDigest })
      .from(tiles)
      .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
      .where(eq(tiles.id, tileId));
    if (tile) await unsettleMelt(tx, tile.melt);
    const happening = { kind: "tile withdrawn", subject: "tile", subjectId: tileId } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "withdrawn" };
  });
}
