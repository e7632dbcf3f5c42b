import { Decimal } from "decimal.js";
import { eq, inArray, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { lots, stockMoves } from "./schema/index.ts";

/**
 * What is left of some lots, by record: what was bought with all that came out and was found, in
 * grams to the last digit; below 0 where more was taken than is on record. A lot that is none has no
 * entry.
 */
export async function leftOfLots(db: Db, lotIds: readonly string[]): Promise<Map<string, Decimal>> {
  if (lotIds.length === 0) return new Map();
  const left = sql<string>`${lots.grams} + coalesce(sum(${stockMoves.grams}), 0)`;
  const rows = await db
    .select({ id: lots.id, left })
    .from(lots)
    .leftJoin(stockMoves, eq(stockMoves.lotId, lots.id))
    .where(inArray(lots.id, [...new Set(lotIds)]))
    .groupBy(lots.id);
  return new Map(rows.map((row) => [row.id, new Decimal(row.left)]));
}
