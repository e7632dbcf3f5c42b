import { asc } from "drizzle-orm";
import type { Price } from "../chem/cost.ts";
import type { Db } from "./client.ts";
import { findLastCurrency, findPrices } from "./lots.ts";
import { findMaterialsById, type MaterialOnShelf } from "./materials.ts";
import { materials } from "./schema/index.ts";

/** Materials with an analysis that are still sold, in the order of names: what a shelf could hold. */
export async function listPlanMaterials(
  db: Db,
  { limit }: { limit: number },
): Promise<MaterialOnShelf[]> {
  const rows = await db
    .select({ id: materials.id })
    .from(materials)
    .orderBy(asc(materials.nameKey))
    .limit(limit);
  const found = await findMaterialsById(
    db,
    rows.map(({ id }) => id),
  );
  return rows.flatMap(({ id }) => {
    const material = found.get(id);
    return material?.inUse && material.stillSold ? [material] : [];
  });
}

/** What materials were last bought for, and the currency that shelves are compared in. */
export async function findPlanPrices(
  db: Db,
  materialIds: readonly string[],
): Promise<{ prices: Map<string, Price>; currency: string | undefined }> {
  return {
    prices: await findPrices(db, materialIds),
    currency: await findLastCurrency(db),
  };
}
