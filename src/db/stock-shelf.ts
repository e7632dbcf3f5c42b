import { Decimal } from "decimal.js";
import { and, asc, eq, gt, inArray, sql } from "drizzle-orm";
import {
  daysCounted,
  type LotAge,
  lotAge,
  mostDays,
  type StockState,
  stockState,
} from "../chem/stock-line.ts";
import type { Db } from "./client.ts";
import { type OpenRecall, openRecallsOfLots } from "./open-recalls.ts";
import { lots, materials, stockMoves, suppliers } from "./schema/index.ts";
import { leftOfLots } from "./stock.ts";
import { findStockLines } from "./stock-lines.ts";

/** A lot that is not used up, or of which more was taken than is on record. */
export type LotOnStock = {
  id: string;
  mark: string;
  supplier: string;
  grams: Decimal;
  leftGrams: Decimal;
  boughtAt: Date;
  bestBefore: string | null;
  age: LotAge;
  /** That nobody closed. */
  recalls: OpenRecall[];
};

/** What there is of a material, and how far it goes. */
export type StockOfMaterial = StockState & {
  material: { slug: string; name: string };
  /** Over all lots, and over those that are neither recalled nor expired. */
  total: Decimal;
  usable: Decimal;
  /** Whether a lot of it was ever put on record. */
  everBought: boolean;
  /** The oldest first: what was bought first is used first. */
  lots: LotOnStock[];
};

/** Of every material on the shelf, by name, what is left and what follows from its use. */
export async function listStock(
  db: Db,
  { now, weeks }: { now: Date; weeks: number },
): Promise<StockOfMaterial[]> {
  const { id, slug, name, nameKey } = materials;
  const shelf = await db.select({ id, slug, name }).from(materials).orderBy(asc(nameKey));
  const bought = await readLots(db, now);
  const used = await usedSince(db, new Date(now.getTime() - mostDays * dayMs));
  const lines = await findStockLines(db);
  return shelf.map((material) => {
    const own = bought.get(material.id) ?? [];
    const usable = sumOf(own.filter(mayBeUsed));
    return {
      ...stockState({
        usable,
        used: used.get(material.id) ?? new Decimal(0),
        days: daysCounted(own[0]?.boughtAt ?? now, now),
        ownLine: lines.get(material.id) ?? null,
        weeks,
      }),
      material: { slug: material.slug, name: material.name },
      total: sumOf(own),
      usable,
      everBought: own.length > 0,
      lots: own.filter(({ leftGrams }) => !leftGrams.isZero()),
    };
  });
}

const dayMs = 24 * 60 * 60 * 1000;

const mayBeUsed = ({ age, recalls }: LotOnStock): boolean =>
  age !== "expired" && recalls.length === 0;

const sumOf = (of: readonly LotOnStock[]): Decimal =>
  Decimal.sum(0, ...of.map(({ leftGrams }) => leftGrams));

async function readLots(db: Db, now: Date): Promise<Map<string, LotOnStock[]>> {
  const rows = await db
    .select({ lot: lots, supplier: suppliers.name })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .orderBy(asc(lots.id));
  const ids = rows.map(({ lot }) => lot.id);
  const left = await leftOfLots(db, ids);
  const recalls = await openRecallsOfLots(db, ids);
  const today = now.toISOString().slice(0, 10);
  const found = new Map<string, LotOnStock[]>();
  for (const { lot, supplier } of rows) {
    const { id, materialId, mark, grams, at: boughtAt, bestBefore } = lot;
    const leftGrams = left.get(id) ?? grams;
    const age = lotAge(bestBefore, today);
    const read = { id, mark, supplier, grams, leftGrams, boughtAt, bestBefore, age };
    const before = found.get(materialId) ?? [];
    found.set(materialId, [...before, { ...read, recalls: recalls.get(id) ?? [] }]);
  }
  return found;
}

/** What went into mixes and other uses since a moment, without what was taken back, by material id. */
async function usedSince(db: Db, since: Date): Promise<Map<string, Decimal>> {
  const used = sql`-sum(${stockMoves.grams})`.mapWith(stockMoves.grams);
  const rows = await db
    .select({ materialId: lots.materialId, used })
    .from(stockMoves)
    .innerJoin(lots, eq(lots.id, stockMoves.lotId))
    .where(
      and(gt(stockMoves.at, since), inArray(stockMoves.because, ["mix", "undone", "other use"])),
    )
    .groupBy(lots.materialId);
  return new Map(rows.map((row) => [row.materialId, row.used]));
}
