import type { Decimal } from "decimal.js";
import { and, desc, eq, inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Price } from "../chem/cost.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { analyses, lots, people, suppliers } from "./schema/index.ts";

type Bought = {
  packGrams: Decimal;
  packPrice: Decimal;
  currency: string;
  /** How much was bought of it altogether. */
  grams: Decimal;
  /** What is written on the bag, so that it can be told from the next one. */
  mark: string;
};

/** What was bought of a powder at one time; without an `analysis` nobody analysed this lot. */
export type FoundLot = Bought & {
  id: string;
  supplier: { slug: string; name: string };
  analysis: { id: string; source: string; measuredOn: string | null } | null;
  by: { name: string };
  at: Date;
};

/** The lots of a material, newest first: the first says what it costs now. */
export async function listLots(db: Db, materialId: string): Promise<FoundLot[]> {
  const rows = await db
    .select({
      lot: lots,
      supplier: { slug: suppliers.slug, name: suppliers.name },
      analysis: { id: analyses.id, source: analyses.source, measuredOn: analyses.measuredOn },
      by: people.name,
    })
    .from(lots)
    .innerJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .innerJoin(people, eq(people.id, lots.by))
    .leftJoin(analyses, eq(analyses.id, lots.analysisId))
    .where(eq(lots.materialId, materialId))
    .orderBy(desc(lots.id));
  return rows.map(({ lot, supplier, analysis, by }) => ({
    id: lot.id,
    supplier,
    analysis,
    packGrams: lot.packGrams,
    packPrice: lot.packPrice,
    currency: lot.currency,
    grams: lot.grams,
    mark: lot.mark,
    by: { name: by },
    at: lot.at,
  }));
}

/** What each material was last bought for: material id → the price of its newest lot. */
export async function findPrices(
  db: Db,
  materialIds: readonly string[],
): Promise<Map<string, Price>> {
  if (materialIds.length === 0) return new Map();
  const { materialId, packGrams, packPrice, currency } = lots;
  const rows = await db
    .selectDistinctOn([materialId], { materialId, packGrams, packPrice, currency })
    .from(lots)
    .where(inArray(materialId, [...new Set(materialIds)]))
    .orderBy(materialId, desc(lots.id));
  return new Map(rows.map(({ materialId, ...price }) => [materialId, price]));
}

/** The currency that the studio last paid in, or undefined where it never bought anything. */
export async function findLastCurrency(db: Db): Promise<string | undefined> {
  const [last] = await db
    .select({ currency: lots.currency })
    .from(lots)
    .orderBy(desc(lots.id))
    .limit(1);
  return last?.currency;
}

export type NewLot = { kind: "added"; id: string } | { kind: "no-such-analysis" };

/** Puts a lot on record. An analysis has to be one of this material's. */
export async function addLot(
  db: Db,
  given: Act &
    Bought & { by: string; materialId: string; supplierId: string; analysisId: string | null },
): Promise<NewLot> {
  const { by, at, ...bought } = given;
  const { materialId, analysisId } = bought;
  return db.transaction(async (tx) => {
    if (analysisId !== null && !(await isAnalysisOf(tx, { materialId, analysisId })))
      return { kind: "no-such-analysis" };
    const id = uuidv7();
    await tx.insert(lots).values({ id, ...bought, by, at });
    const detail = { material: materialId, supplier: bought.supplierId, analysis: analysisId };
    await appendEvent(tx, { by, at }, { kind: "lot added", subject: "lot", subjectId: id, detail });
    return { kind: "added", id };
  });
}

async function isAnalysisOf(
  tx: Db,
  { materialId, analysisId }: { materialId: string; analysisId: string },
): Promise<boolean> {
  const [found] = await tx
    .select({ id: analyses.id })
    .from(analyses)
    .where(and(eq(analyses.id, analysisId), eq(analyses.materialId, materialId)));
  return found !== undefined;
}
