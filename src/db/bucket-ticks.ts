import type { Decimal } from "decimal.js";
import { and, asc, eq, exists, inArray, isNull, notExists, type SQL } from "drizzle-orm";
import type { Part } from "../chem/lines.ts";
import type { Db } from "./client.ts";
import { findNewestAnalysisIds } from "./newest-lot-analyses.ts";
import { notEmptiedSince, notTakenBack } from "./open-recalls.ts";
import {
  lots,
  materials,
  mixEnds,
  mixes,
  mixLines,
  mixTicks,
  mixTickUndoings,
  suppliers,
} from "./schema/index.ts";

/** A powder as it went into a bucket, and the analysis that it counts with. */
export type PowderIn = {
  material: { id: string; slug: string; name: string };
  part: Part;
  /** null where nobody could tell which bag it came out of. */
  lot: { id: string; mark: string; supplier: string } | null;
  /** null where the powder has none. */
  analysisId: string | null;
  /** That the analysis is not of the very lot. */
  notThisLot: boolean;
  grams: Decimal;
};

export type BucketTick = PowderIn & {
  bucketId: string;
  mixId: string;
  at: Date;
  /** Of its mix; null while that is open. */
  end: { is: "finished" | "given up"; at: Date } | null;
};

/**
 * What went into some buckets and was neither taken back nor emptied since, oldest first. A lot counts
 * with its own analysis, one without with the newest of its powder; what came out of a bag that
 * nobody could tell counts with what the revision pins.
 */
export async function listBucketTicks(db: Db, bucketIds: readonly string[]): Promise<BucketTick[]> {
  if (bucketIds.length === 0) return [];
  const rows = await db
    .select({
      bucketId: mixes.bucketId,
      mixId: mixTicks.mixId,
      at: mixTicks.at,
      grams: mixTicks.grams,
      part: mixLines.part,
      pinned: mixLines.analysisId,
      material: { id: materials.id, slug: materials.slug, name: materials.name },
      lot: { id: lots.id, mark: lots.mark, analysisId: lots.analysisId },
      supplier: suppliers.name,
      end: { is: mixEnds.is, at: mixEnds.at },
    })
    .from(mixTicks)
    .innerJoin(mixes, eq(mixes.id, mixTicks.mixId))
    .innerJoin(mixLines, and(eq(mixLines.mixId, mixTicks.mixId), eq(mixLines.n, mixTicks.n)))
    .innerJoin(materials, eq(materials.id, mixLines.materialId))
    .leftJoin(lots, eq(lots.id, mixTicks.lotId))
    .leftJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .leftJoin(mixEnds, eq(mixEnds.mixId, mixTicks.mixId))
    .where(and(inArray(mixes.bucketId, [...bucketIds]), notTakenBack(db), notEmptiedSince))
    .orderBy(asc(mixTicks.id));
  const newest = await findNewestAnalysisIds(
    db,
    rows.flatMap(({ lot, material }) => (lot && lot.analysisId === null ? [material.id] : [])),
  );
  return rows.map(({ pinned, lot, supplier, ...row }) => ({
    ...row,
    lot: lot && { id: lot.id, mark: lot.mark, supplier: supplier ?? "" },
    ...countedWith({ lot, newest: newest.get(row.material.id), pinned }),
  }));
}

/** The analysis that what came out of a bag counts with, and whether it is of another bag. */
export const countedWith = ({
  lot,
  newest,
  pinned,
}: {
  lot: { analysisId: string | null } | null;
  newest: string | undefined;
  pinned: string | null;
}): Pick<PowderIn, "analysisId" | "notThisLot"> => ({
  analysisId: lot ? (lot.analysisId ?? newest ?? pinned) : pinned,
  notThisLot: !lot?.analysisId,
});

/** What is still to be put in, as planned, of open mixes of which something is in: bucket id → powders. */
export async function findStillToCome(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, PowderIn[]>> {
  const toCome = new Map<string, PowderIn[]>();
  if (bucketIds.length === 0) return toCome;
  const standing = (which: SQL | undefined) =>
    db
      .select({ id: mixTicks.id })
      .from(mixTicks)
      .leftJoin(mixTickUndoings, eq(mixTickUndoings.tickId, mixTicks.id))
      .where(and(eq(mixTicks.mixId, mixLines.mixId), which, isNull(mixTickUndoings.tickId)));
  const rows = await db
    .select({
      bucketId: mixes.bucketId,
      part: mixLines.part,
      grams: mixLines.grams,
      analysisId: mixLines.analysisId,
      material: { id: materials.id, slug: materials.slug, name: materials.name },
    })
    .from(mixes)
    .leftJoin(mixEnds, eq(mixEnds.mixId, mixes.id))
    .innerJoin(mixLines, eq(mixLines.mixId, mixes.id))
    .innerJoin(materials, eq(materials.id, mixLines.materialId))
    .where(
      and(
        inArray(mixes.bucketId, [...bucketIds]),
        isNull(mixEnds.mixId),
        exists(standing(undefined)),
        notExists(standing(eq(mixTicks.n, mixLines.n))),
      ),
    )
    .orderBy(asc(mixLines.mixId), asc(mixLines.n));
  for (const { bucketId, ...line } of rows) {
    const powder = { ...line, lot: null, notThisLot: false };
    toCome.set(bucketId, [...(toCome.get(bucketId) ?? []), powder]);
  }
  return toCome;
}
