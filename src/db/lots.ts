import type { Decimal } from "decimal.js";
import { and, desc, eq, inArray, type SQL } from "drizzle-orm";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Price } from "../chem/cost.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { type OpenRecall, openRecallsOfLots } from "./open-recalls.ts";
import { analyses, lots, materials, people, suppliers } from "./schema/index.ts";
import { leftOfLots } from "./stock.ts";

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
  /** After which it is not to be relied on; null where nobody said. */
  bestBefore: string | null;
  /** By record: below 0 where more was taken than is on record. */
  leftGrams: Decimal;
  /** That nobody closed. */
  recalls: OpenRecall[];
};

/** The lots of a material, newest first: the first says what it costs now. */
export const listLots = (db: Db, materialId: string): Promise<FoundLot[]> =>
  readLots(db, eq(lots.materialId, materialId));

/** One lot, and what it is of. */
export async function findLot(
  db: Db,
  id: string,
): Promise<(FoundLot & { material: { slug: string; name: string } }) | undefined> {
  if (!isUuid(id)) return undefined;
  const [lot] = await readLots(db, eq(lots.id, id));
  const [material] = await db
    .select({ slug: materials.slug, name: materials.name })
    .from(lots)
    .innerJoin(materials, eq(materials.id, lots.materialId))
    .where(eq(lots.id, id));
  return lot && material && { ...lot, material };
}

async function readLots(db: Db, which: SQL): Promise<FoundLot[]> {
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
    .where(which)
    .orderBy(desc(lots.id));
  const ids = rows.map(({ lot }) => lot.id);
  const left = await leftOfLots(db, ids);
  const recalls = await openRecallsOfLots(db, ids);
  return rows.map(({ lot, supplier, analysis, by }) => ({
    id: lot.id,
    supplier,
    analysis,
    packGrams: lot.packGrams,
    packPrice: lot.packPrice,
    currency: lot.currency,
    grams: lot.grams,
    mark: lot.mark,
    bestBefore: lot.bestBefore,
    by: { name: by },
    at: lot.at,
    leftGrams: left.get(lot.id) ?? lot.grams,
    recalls: recalls.get(lot.id) ?? [],
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
    Bought & {
      by: string;
      materialId: string;
      supplierId: string;
      analysisId: string | null;
      bestBefore?: string | undefined;
    },
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
