import { asc, eq } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import { type FoundDirections, findDirections } from "./bucket-directions.ts";
import type { Db } from "./client.ts";
import { type DataSheet, findDataSheets } from "./data-sheets.ts";
import type { Atmosphere } from "./drafts.ts";
import { findLastMixed } from "./last-mixed.ts";
import { buckets, materials, revisionLines, revisions } from "./schema/index.ts";

/** A powder of a bucket's recipe, with what can hurt of it. */
export type CardPowder = {
  slug: string;
  name: string;
  hazards: string[];
  /** Null where nobody put down what the supplier's sheet says. */
  sheet: DataSheet | null;
};

/** What stands on a bucket's label beside its name and its standing. */
export type BucketCard = {
  cones: { low: Cone; high: Cone };
  atmosphere: Atmosphere;
  meltDigest: string;
  /** In the order of the recipe. */
  powders: CardPowder[];
  directions: FoundDirections | null;
  /** When a mix of it was finished last; null where none was. */
  mixedAt: Date | null;
};

/**
 * The day until which a bucket keeps that was mixed on a day, in whole months; the last day of a month
 * where the later month has no such day. Mixed on 31 August for 6 months: 28 February, in most years.
 */
export function keepsUntil(mixedAt: Date, months: number): Date {
  const [year, month] = [mixedAt.getUTCFullYear(), mixedAt.getUTCMonth() + months];
  const lastDay = new Date(Date.UTC(year, month + 1, 0)).getUTCDate();
  return new Date(Date.UTC(year, month, Math.min(mixedAt.getUTCDate(), lastDay)));
}

/** The card of a bucket that was found through the reader's scope. */
export async function findBucketCard(db: Db, bucketId: string): Promise<BucketCard> {
  const [revision] = await db
    .select({
      id: revisions.id,
      coneLow: revisions.coneLow,
      coneHigh: revisions.coneHigh,
      atmosphere: revisions.atmosphere,
      meltDigest: revisions.meltDigest,
    })
    .from(buckets)
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .where(eq(buckets.id, bucketId));
  if (!revision) throw new Error("a bucket that was found is there");
  const { id, coneLow, coneHigh, ...card } = revision;
  return {
    ...card,
    // The schema bounds their shape; they were taken from the list of cones.
    cones: { low: coneLow as Cone, high: coneHigh as Cone },
    powders: await findCardPowders(db, id),
    directions: (await findDirections(db, [bucketId])).get(bucketId) ?? null,
    mixedAt: (await findLastMixed(db, [bucketId])).get(bucketId) ?? null,
  };
}

/** The powders of a revision, each once. */
async function findCardPowders(db: Db, revisionId: string): Promise<CardPowder[]> {
  const rows = await db
    .select({
      id: materials.id,
      slug: materials.slug,
      name: materials.name,
      hazards: materials.hazards,
    })
    .from(revisionLines)
    .innerJoin(materials, eq(materials.id, revisionLines.materialId))
    .where(eq(revisionLines.revisionId, revisionId))
    .orderBy(asc(revisionLines.position));
  const powders = [...new Map(rows.map((row) => [row.id, row])).values()];
  const sheets = await findDataSheets(
    db,
    powders.map((powder) => powder.id),
  );
  return powders.map(({ id, ...powder }) => ({ ...powder, sheet: sheets.get(id) ?? null }));
}
