import type { Decimal } from "decimal.js";
import { and, desc, eq, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  buckets,
  mixes,
  mixTicks,
  people,
  recipes,
  revisions,
  stockMoves,
  type stockReasons,
} from "./schema/index.ts";

/** What came out of a lot, below 0, or was found in it or put back, above. */
export type StockMove = {
  id: string;
  grams: Decimal;
  because: (typeof stockReasons)[number];
  why: string;
  by: string;
  at: Date;
  /** What the lot held afterwards, by record. */
  left: Decimal;
  /** The mix that it went into, as far as the reader may know of it. */
  mix: { id: string; bucket: { id: string; name: string } } | null;
};

/** All that a lot's amount went through, newest first. */
export async function listMoves(
  db: Db,
  { lotId, bought, reader }: { lotId: string; bought: Decimal; reader: Reader },
): Promise<StockMove[]> {
  const rows = await db
    .select({
      id: stockMoves.id,
      grams: stockMoves.grams,
      because: stockMoves.because,
      why: stockMoves.why,
      by: people.name,
      at: stockMoves.at,
      sum: sql`sum(${stockMoves.grams}) over (order by ${stockMoves.id})`.mapWith(stockMoves.grams),
      mixId: mixes.id,
      bucket: { id: buckets.id, name: buckets.name },
      /** null where the reader may not know of it. */
      recipeId: recipes.id,
    })
    .from(stockMoves)
    .innerJoin(people, eq(people.id, stockMoves.by))
    .leftJoin(mixTicks, eq(mixTicks.id, stockMoves.tickId))
    .leftJoin(mixes, eq(mixes.id, mixTicks.mixId))
    .leftJoin(buckets, eq(buckets.id, mixes.bucketId))
    .leftJoin(revisions, eq(revisions.id, buckets.revisionId))
    .leftJoin(recipes, and(eq(recipes.id, revisions.recipeId), readableBy(reader)))
    .where(eq(stockMoves.lotId, lotId))
    .orderBy(desc(stockMoves.id));
  return rows.map(({ sum, mixId, bucket, recipeId, ...move }) => ({
    ...move,
    left: bought.plus(sum),
    mix: mixId !== null && bucket && recipeId !== null ? { id: mixId, bucket } : null,
  }));
}
