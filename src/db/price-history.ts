import { desc, eq } from "drizzle-orm";
import type { Price } from "../chem/cost.ts";
import type { Db } from "./client.ts";
import { lots, materials, packs, suppliers } from "./schema/index.ts";

/** What a pack of a powder cost at one time: on a price list, or paid for a lot. */
export type PriceThen = Price & {
  at: Date;
  supplier: { slug: string; name: string };
  from: "list" | "lot";
};

const seller = { slug: suppliers.slug, name: suppliers.name };

/** All that a material ever cost, newest first. */
export async function listPricesThen(db: Db, materialId: string): Promise<PriceThen[]> {
  const paid = await db
    .select({
      at: lots.at,
      packGrams: lots.packGrams,
      packPrice: lots.packPrice,
      currency: lots.currency,
      supplier: seller,
    })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .where(eq(lots.materialId, materialId))
    .orderBy(desc(lots.id));
  const listed = await db
    .select({
      at: packs.at,
      packGrams: packs.packGrams,
      packPrice: packs.packPrice,
      currency: packs.currency,
      supplier: seller,
      stillSold: packs.stillSold,
    })
    .from(packs)
    .innerJoin(suppliers, eq(suppliers.id, packs.supplierId))
    .where(eq(packs.materialId, materialId))
    .orderBy(desc(packs.id));
  return [
    ...paid.map((price) => ({ ...price, from: "lot" as const })),
    ...listed.flatMap(({ stillSold, ...price }) =>
      stillSold ? [{ ...price, from: "list" as const }] : [],
    ),
  ].sort((one, other) => other.at.getTime() - one.at.getTime());
}

/** A lot that was bought of a supplier. */
export type BoughtLot = Price & {
  id: string;
  material: { slug: string; name: string };
  grams: Price["packGrams"];
  mark: string;
  at: Date;
};

/** The newest lots of a supplier, newest first. */
export const listLotsOfSupplier = (
  db: Db,
  { supplierId, limit }: { supplierId: string; limit: number },
): Promise<BoughtLot[]> =>
  db
    .select({
      id: lots.id,
      material: { slug: materials.slug, name: materials.name },
      packGrams: lots.packGrams,
      packPrice: lots.packPrice,
      currency: lots.currency,
      grams: lots.grams,
      mark: lots.mark,
      at: lots.at,
    })
    .from(lots)
    .innerJoin(materials, eq(materials.id, lots.materialId))
    .where(eq(lots.supplierId, supplierId))
    .orderBy(desc(lots.id))
    .limit(limit);
