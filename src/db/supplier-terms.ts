import type { Decimal } from "decimal.js";
import { desc } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { supplierTerms } from "./schema/index.ts";

/** What a supplier takes for sending, and in which region's words it is asked. */
export type Terms = {
  region: string;
  carriage: Decimal;
  /** From this much on it sends without; null where it never does. */
  freeFrom: Decimal | null;
  currency: string;
  at: Date;
};

/** The newest terms of each supplier that has any: supplier id → terms. */
export async function listTerms(db: Db): Promise<Map<string, Terms>> {
  const { supplierId, region, carriage, freeFrom, currency, at, id } = supplierTerms;
  const rows = await db
    .selectDistinctOn([supplierId], { supplierId, region, carriage, freeFrom, currency, at })
    .from(supplierTerms)
    .orderBy(supplierId, desc(id));
  return new Map(rows.map(({ supplierId, ...terms }) => [supplierId, terms]));
}

/** Says anew what a supplier takes for sending. */
export async function setTerms(
  db: Db,
  { supplierId, by, at, ...said }: Act & Omit<Terms, "at"> & { by: string; supplierId: string },
): Promise<void> {
  await db.transaction(async (tx) => {
    const id = uuidv7();
    await tx.insert(supplierTerms).values({ id, supplierId, ...said, by, at });
    const detail = { terms: id, currency: said.currency };
    const kind = "terms set";
    await appendEvent(tx, { by, at }, { kind, subject: "supplier", subjectId: supplierId, detail });
  });
}
