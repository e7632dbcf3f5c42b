import type { Decimal } from "decimal.js";
import { and, desc, eq, inArray, isNull } from "drizzle-orm";
import type { Db } from "./client.ts";
import { lots, recallClosings, recalls, suppliers } from "./schema/index.ts";
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
  const recalled = await findRecalled(db, ids);
  const newest = new Map(rows.toReversed().map(({ materialId, id }) => [materialId, id]));
  return rows
    .flatMap(({ bestBefore, ...lot }) => {
      const leftGrams = left.get(lot.id);
      if (!leftGrams) return [];
      if (leftGrams.lte(0) && newest.get(lot.materialId) !== lot.id && !used.has(lot.id)) return [];
      const expired = bestBefore !== null && bestBefore < today;
      return [{ ...lot, leftGrams, recalled: recalled.get(lot.id) ?? null, expired }];
    })
    .toReversed();
}

/** Lots under a recall that nobody closed yet: lot id → why. */
export async function findRecalled(
  db: Db,
  lotIds: readonly string[],
): Promise<Map<string, string>> {
  if (lotIds.length === 0) return new Map();
  const rows = await db
    .select({ lotId: recalls.lotId, why: recalls.why })
    .from(recalls)
    .leftJoin(recallClosings, eq(recallClosings.recallId, recalls.id))
    .where(and(inArray(recalls.lotId, [...new Set(lotIds)]), isNull(recallClosings.recallId)))
    .orderBy(recalls.id);
  return new Map(rows.flatMap(({ lotId, why }) => (lotId === null ? [] : [[lotId, why]])));
}
