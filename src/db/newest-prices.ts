import { and, desc, eq, inArray } from "drizzle-orm";
import { type Price, pricePerGram } from "../chem/cost.ts";
import type { Db } from "./client.ts";
import { findLastCurrency } from "./lots.ts";
import { listPacks } from "./packs.ts";
import { lots } from "./schema/index.ts";

/**
 * What each material costs in a currency: what was paid for its newest lot, or where nothing was
 * bought of it, the pack on a list that costs least by the gram. Material id → price.
 */
export async function findNewestPrices(
  db: Db,
  { materialIds, currency }: { materialIds: readonly string[]; currency: string },
): Promise<Map<string, Price>> {
  if (materialIds.length === 0) return new Map();
  const { materialId, packGrams, packPrice } = lots;
  const paid = await db
    .selectDistinctOn([materialId], { materialId, packGrams, packPrice })
    .from(lots)
    .where(and(inArray(materialId, [...new Set(materialIds)]), eq(lots.currency, currency)))
    .orderBy(materialId, desc(lots.id));
  const prices = new Map<string, Price>(
    paid.map(({ materialId, ...price }) => [materialId, { ...price, currency }]),
  );
  const asked = (await listPacks(db))
    .filter((pack) => pack.currency === currency && materialIds.includes(pack.material.id))
    .sort((one, other) => pricePerGram(one).comparedTo(pricePerGram(other)));
  for (const { material, packGrams, packPrice } of asked)
    if (!prices.has(material.id)) prices.set(material.id, { packGrams, packPrice, currency });
  return prices;
}

/** What prices are shown in: what the studio says, else what it last paid in or was asked in. */
export const findCurrency = async (db: Db, studio: { currency: string | null }) =>
  studio.currency ?? (await findLastCurrency(db)) ?? (await listPacks(db))[0]?.currency;
