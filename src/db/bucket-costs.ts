import type { Decimal } from "decimal.js";
import { and, asc, count, desc, eq, gt, isNull } from "drizzle-orm";
import type { Price } from "../chem/cost.ts";
import type { Db } from "./client.ts";
import {
  bucketUses,
  bucketUseUndoings,
  lots,
  materials,
  mixEnds,
  mixes,
  mixLines,
  mixTicks,
  mixTickUndoings,
  people,
} from "./schema/index.ts";

/** What went into a bucket of one powder out of one bag, and what was paid for that. */
export type Poured = {
  material: { id: string; slug: string; name: string };
  grams: Decimal;
  /** null where nobody could tell the bag. */
  paid: Price | null;
};

export type LastMix = { id: string; at: Date; poured: Poured[] };

/** What really went in with the newest finished mix of a bucket, in the order of its sheet. */
export async function findLastMix(db: Db, bucketId: string): Promise<LastMix | undefined> {
  const [mix] = await db
    .select({ id: mixes.id, at: mixEnds.at })
    .from(mixes)
    .innerJoin(mixEnds, eq(mixEnds.mixId, mixes.id))
    .where(and(eq(mixes.bucketId, bucketId), eq(mixEnds.is, "finished")))
    .orderBy(desc(mixes.id))
    .limit(1);
  if (!mix) return undefined;
  const { packGrams, packPrice, currency } = lots;
  const rows = await db
    .select({
      material: { id: materials.id, slug: materials.slug, name: materials.name },
      grams: mixTicks.grams,
      paid: { packGrams, packPrice, currency },
    })
    .from(mixTicks)
    .innerJoin(mixLines, and(eq(mixLines.mixId, mixTicks.mixId), eq(mixLines.n, mixTicks.n)))
    .innerJoin(materials, eq(materials.id, mixLines.materialId))
    .leftJoin(lots, eq(lots.id, mixTicks.lotId))
    .leftJoin(mixTickUndoings, eq(mixTickUndoings.tickId, mixTicks.id))
    .where(and(eq(mixTicks.mixId, mix.id), isNull(mixTickUndoings.tickId)))
    .orderBy(asc(mixTicks.n), asc(mixTicks.id));
  return { ...mix, poured: rows };
}

/** How often each person used a bucket since a moment, those who used it most first. */
export const listUsers = (
  db: Db,
  { bucketId, since }: { bucketId: string; since: Date },
): Promise<{ id: string; name: string; uses: number }[]> => {
  const uses = count(bucketUses.id);
  return db
    .select({ id: people.id, name: people.name, uses })
    .from(bucketUses)
    .innerJoin(people, eq(people.id, bucketUses.by))
    .leftJoin(bucketUseUndoings, eq(bucketUseUndoings.useId, bucketUses.id))
    .where(
      and(
        eq(bucketUses.bucketId, bucketId),
        gt(bucketUses.at, since),
        isNull(bucketUseUndoings.useId),
      ),
    )
    .groupBy(people.id, people.name, people.nameKey)
    .orderBy(desc(uses), asc(people.nameKey));
};
