import { and, desc, eq, inArray } from "drizzle-orm";
import type { Price } from "../chem/cost.ts";
import type { Db } from "./client.ts";
import { findLastCurrency } from "./lots.ts";
import { listPacks } from "./packs.ts";
import { lots } from "./schema/index.ts";

/**
 * What each material costs now in a currency: what was paid for its newest lot, or what a list asks
 * where that is newer. Material id → price.
 */
export async function findNewestPrices(
  db: Db,
  { materialIds, currency }: { materialIds: readonly string[]; currency: string },
): Promise<Map<string, Price>> {
  if (materialIds.length === 0) return new Map();
  const { materialId, packGrams, packPrice, at } = lots;
  const paid = await db
    .selectDistinctOn([materialId], { materialId, packGrams, packPrice, at })
    .from(lots)
    .where(and(inArray(materialId, [...new Set(materialIds)]), eq(lots.currency, currency)))
    .orderBy(materialId, desc(lots.id));
  const newest = new Map(paid.map((price) => [price.materialId, { ...price, currency }]));
  for (const { material, ...pack } of await listPacks(db)) {
    const known = newest.get(material.id);
    if (pack.currency !== currency || !materialIds.includes(material.id)) continue;
    if (!known || pack.at > known.at) newest.set(material.id, { ...pack, materialId: material.id });
  }
  return new Map(
    [...newest].map(([id, { packGrams, packPrice }]) => [id, { packGrams, packPrice, currency }]),
  );
}

/** What prices are shown in: what the studio says, else what it last paid in or was asked in. */
export const findCurrency = async (db: Db, studio: { currency: string | null }) =>
  studio.currency ?? (await findLastCurrency(db)) ?? (await listPacks(db))[0]?.currency;
