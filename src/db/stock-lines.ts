import type { Decimal } from "decimal.js";
import { desc } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { stockLines } from "./schema/index.ts";

/** The studio's own lines: material id → grams that should always be there. */
export async function findStockLines(db: Db): Promise<Map<string, Decimal>> {
  const { materialId, grams, id } = stockLines;
  const rows = await db
    .selectDistinctOn([materialId], { materialId, grams })
    .from(stockLines)
    .orderBy(materialId, desc(id));
  return new Map(rows.flatMap((row) => (row.grams ? [[row.materialId, row.grams]] : [])));
}

/** Says how much of a material should always be there; with null its use tells again. */
export async function setStockLine(
  db: Db,
  { materialId, grams, by, at }: Act & { by: string; materialId: string; grams: Decimal | null },
): Promise<void> {
  await db.transaction(async (tx) => {
    await tx.insert(stockLines).values({ id: uuidv7(), materialId, grams, by, at });
    const detail = { grams: grams?.toFixed() ?? null };
    await appendEvent(
      tx,
      { by, at },
      { kind: "stock line set", subject: "material", subjectId: materialId, detail },
    );
  });
}
