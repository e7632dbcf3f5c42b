import { and, asc, eq, inArray } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import { isRemoved } from "./pictures.ts";
import { type Reader, readableBy, type Scope } from "./recipes.ts";
import {
  buckets,
  type firingKinds,
  firings,
  firingWithdrawals,
  kilns,
  photos,
  pictures,
  recipes,
  revisions,
} from "./schema/index.ts";
import { listWitness } from "./witness-cones.ts";

export type FoundPhoto = {
  id: string;
  sha256: string;
  alt: string;
  width: number;
  height: number;
  /** A manager had the picture removed; that it was there stays on record. */
  removed: boolean;
};

/** The pictures of some tiles, in the order in which they came: tile id → pictures. */
export async function listPhotos(
  db: Db,
  tileIds: readonly string[],
): Promise<Map<string, FoundPhoto[]>> {
  if (tileIds.length === 0) return new Map();
  const rows = await db
    .select({
      id: photos.id,
      tileId: photos.tileId,
      sha256: photos.sha256,
      alt: photos.alt,
      width: pictures.width,
      height: pictures.height,
      removed: isRemoved,
    })
    .from(photos)
    .innerJoin(pictures, eq(pictures.sha256, photos.sha256))
    .where(inArray(photos.tileId, [...tileIds]))
    .orderBy(asc(photos.id));
  const hung = new Map<string, FoundPhoto[]>();
  for (const { tileId, ...photo } of rows) {
    hung.set(tileId, [...(hung.get(tileId) ?? []), photo]);
  }
  return hung;
}

/** The firing that a tile stood in, with the cones that stood beside the ware. */
export type TileFiring = {
  id: string;
  kiln: { slug: string; name: string };
  kind: (typeof firingKinds)[number];
  startedAt: Date;
  witness: { cone: Cone; bendDegrees: number; place: string }[];
  /** Why the firing was taken back, where it was: its cones witness nothing. */
  withdrawnWhy: string | null;
};

/** Firings of some tiles: firing id → firing. */
export async function findTileFirings(
  db: Db,
  ids: readonly string[],
): Promise<Map<string, TileFiring>> {
  if (ids.length === 0) return new Map();
  const rows = await db
    .select({
      id: firings.id,
      kiln: { slug: kilns.slug, name: kilns.name },
      kind: firings.kind,
      startedAt: firings.startedAt,
      withdrawnWhy: firingWithdrawals.why,
    })
    .from(firings)
    .innerJoin(kilns, eq(kilns.id, firings.kilnId))
    .leftJoin(firingWithdrawals, eq(firingWithdrawals.firingId, firings.id))
    .where(inArray(firings.id, [...ids]));
  const stood = await listWitness(db, ids);
  return new Map(rows.map((row) => [row.id, { ...row, witness: stood.get(row.id) ?? [] }]));
}

/** A recipe's revision, as far as the reader may know of it. */
export type Beneath = { slug: string; name: string; number: number };

/** What some tiles lie over: revision id → what it is; one that the reader may not know of has no entry. */
export async function findBeneath(
  db: Db,
  { ids, reader }: { ids: readonly string[]; reader: Scope },
): Promise<Map<string, Beneath>> {
  if (ids.length === 0) return new Map();
  const rows = await db
    .select({
      id: revisions.id,
      slug: recipes.slug,
      name: recipes.name,
      number: revisions.number,
    })
    .from(revisions)
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(inArray(revisions.id, [...ids]), readableBy(reader)));
  return new Map(rows.map(({ id, ...beneath }) => [id, beneath]));
}

/** The buckets that some tiles prove, for people of the studio who may know of them. */
export async function findTileBuckets(
  db: Db,
  { ids, reader }: { ids: readonly string[]; reader: Reader },
): Promise<Map<string, { id: string; name: string }>> {
  if (ids.length === 0 || !reader) return new Map();
  const rows = await db
    .select({ id: buckets.id, name: buckets.name })
    .from(buckets)
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(inArray(buckets.id, [...ids]), readableBy(reader)));
  return new Map(rows.map((bucket) => [bucket.id, bucket]));
}
