import type { Decimal } from "decimal.js";
import { desc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Price } from "../chem/cost.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvents } from "./events.ts";
import { lots, materials, packs, suppliers } from "./schema/index.ts";

/** A pack of a powder that a supplier sells, and what it costs. */
export type ListedPack = Price & {
  material: { id: string; slug: string; name: string };
  supplier: { id: string; slug: string; name: string };
  /** A price list, or what was paid for the newest lot where that is newer. */
  from: "list" | "lot";
  at: Date;
};

const described = {
  material: { id: materials.id, slug: materials.slug, name: materials.name },
  supplier: { id: suppliers.id, slug: suppliers.slug, name: suppliers.name },
};

/**
 * What can be bought now, by supplier and powder and then by size: the newest word on each pack,
 * whether it stands in a list or was paid for a lot. A pack that is no longer sold is left out, until
 * a lot of it is bought after that.
 *
 * @param supplierId of one supplier only, where it is given.
 */
export async function listPacks(db: Db, supplierId?: string): Promise<ListedPack[]> {
  const newest = new Map<string, ListedPack & { stillSold: boolean }>();
  for (const pack of [
    ...(await readListed(db, supplierId)),
    ...(await readBought(db, supplierId)),
  ]) {
    const key = `${pack.supplier.id} ${pack.material.id} ${pack.packGrams.toFixed()}`;
    const known = newest.get(key);
    if (!known || pack.at > known.at) newest.set(key, pack);
  }
  return [...newest.values()]
    .filter(({ stillSold }) => stillSold)
    .map(({ stillSold: _, ...pack }) => pack)
    .sort(
      (one, other) =>
        order(one.supplier.slug, other.supplier.slug) ||
        order(one.material.slug, other.material.slug) ||
        one.packGrams.comparedTo(other.packGrams),
    );
}

const order = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

async function readListed(db: Db, supplierId: string | undefined) {
  const rows = await db
    .selectDistinctOn([packs.materialId, packs.supplierId, packs.packGrams], {
      ...described,
      packGrams: packs.packGrams,
      packPrice: packs.packPrice,
      currency: packs.currency,
      stillSold: packs.stillSold,
      at: packs.at,
    })
    .from(packs)
    .innerJoin(materials, eq(materials.id, packs.materialId))
    .innerJoin(suppliers, eq(suppliers.id, packs.supplierId))
    .where(supplierId === undefined ? undefined : eq(packs.supplierId, supplierId))
    .orderBy(packs.materialId, packs.supplierId, packs.packGrams, desc(packs.id));
  return rows.map((row) => ({ ...row, from: "list" as const }));
}

async function readBought(db: Db, supplierId: string | undefined) {
  const rows = await db
    .selectDistinctOn([lots.materialId, lots.supplierId, lots.packGrams], {
      ...described,
      packGrams: lots.packGrams,
      packPrice: lots.packPrice,
      currency: lots.currency,
      at: lots.at,
    })
    .from(lots)
    .innerJoin(materials, eq(materials.id, lots.materialId))
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .where(supplierId === undefined ? undefined : eq(lots.supplierId, supplierId))
    .orderBy(lots.materialId, lots.supplierId, lots.packGrams, desc(lots.id));
  return rows.map((row) => ({ ...row, from: "lot" as const, stillSold: true }));
}

export type NewPack = {
  materialId: string;
  packGrams: Decimal;
  packPrice: Decimal;
  currency: string;
  stillSold: boolean;
};

/** Puts packs of a supplier on record, at their price or as no longer sold: all of them or none. */
export async function addPacks(
  db: Db,
  { supplierId, added, by, at }: Act & { by: string; supplierId: string; added: NewPack[] },
): Promise<void> {
  await db.transaction(async (tx) => {
    const rows = added.map((pack) => ({ id: uuidv7(), supplierId, ...pack, by, at }));
    if (rows.length > 0) await tx.insert(packs).values(rows);
    await appendEvents(
      tx,
      rows.map(({ id, materialId, packGrams, stillSold }) => {
        const detail = { pack: id, material: materialId, packGrams: packGrams.toFixed() };
        const kind = stillSold ? "pack added" : "pack ended";
        return {
          act: { by, at },
          happening: { kind, subject: "supplier", subjectId: supplierId, detail } as const,
        };
      }),
    );
  });
}
