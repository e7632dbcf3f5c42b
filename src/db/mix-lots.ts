import type { Decimal } from "decimal.js";
import { desc, eq, inArray } from "drizzle-orm";
import { lotAge } from "../chem/stock-line.ts";
import type { Db } from "./client.ts";
import { openRecallsOfLots } from "./open-recalls.ts";
import { lots, suppliers } from "./schema/index.ts";
import { leftOfLots } from "./stock.ts";

/** A bag that a line may be weighed out of. */
export type MixLot = {
  id: string;
  materialId: string;
  mark: string;
  supplier: string;
  boughtAt: Date;
  leftGrams: Decimal;
  /** Why nobody may use it; null while it may be used. */
  recalled: string | null;
  expired: boolean;
};

/**
 * The lots of some materials that somebody may be weighing out of, the oldest first, so that what
 * was bought first is used first. Used-up ones are left out, but for the newest of each material and
 * those in `used`.
 */
export async function listMixLots(
  db: Db,
  params: { materialIds: readonly string[]; used: ReadonlySet<string>; today: string },
): Promise<MixLot[]> {
  const { materialIds, used, today } = params;
  if (materialIds.length === 0) return [];
  const rows = await db
    .select({
      id: lots.id,
      materialId: lots.materialId,
      mark: lots.mark,
      supplier: suppliers.name,
      boughtAt: lots.at,
      bestBefore: lots.bestBefore,
    })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .where(inArray(lots.materialId, [...new Set(materialIds)]))
    .orderBy(desc(lots.id));
  const ids = rows.map(({ id }) => id);
  const left = await leftOfLots(db, ids);
  const recalled = await openRecallsOfLots(db, ids);
  const newest = new Map(rows.toReversed().map(({ materialId, id }) => [materialId, id]));
  return rows
    .flatMap(({ bestBefore, ...lot }) => {
      const leftGrams = left.get(lot.id);
      if (!leftGrams) return [];
      if (leftGrams.lte(0) && newest.get(lot.materialId) !== lot.id && !used.has(lot.id)) return [];
      const expired = lotAge(bestBefore, today) === "expired";
      return [{ ...lot, leftGrams, recalled: recalled.get(lot.id)?.[0]?.why ?? null, expired }];
    })
    .toReversed();
}
