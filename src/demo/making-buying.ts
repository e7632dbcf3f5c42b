import { Decimal } from "decimal.js";
import { addPacks } from "../db/packs.ts";
import { addPlan } from "../db/plans.ts";
import { findRevision } from "../db/revisions.ts";
import { setTerms } from "../db/supplier-terms.ts";
import { addSupplier, findSupplier } from "../db/suppliers.ts";
import { demoPlans, demoPriceLists, demoTerms, slipway } from "./buying.ts";
import { type Entry, entry, known, type Making } from "./diary.ts";

/** What suppliers ask this autumn, and what is to be mixed of it. */
export const buyingEntries = (): Entry[] => [
  entry("2026-10-05T09:00:00Z", async ({ db, ids }, at) => {
    const added = await addSupplier(db, { ...slipway, by: known(ids, "ines"), at });
    if (added.kind !== "added") throw new Error(`${slipway.name} is on record twice`);
  }),
  entry("2026-10-05T09:20:00Z", putDownPrices),
  entry("2026-10-19T18:00:00Z", plan),
];

async function putDownPrices(making: Making, at: Date): Promise<void> {
  const { db, ids, materialIds } = making;
  const act = { by: known(ids, "ines"), at };
  for (const [name, packs] of Object.entries(demoPriceLists)) {
    const added = packs.map(([material, kilograms, pounds]) => ({
      materialId: known(materialIds, material),
      packGrams: new Decimal(kilograms).times(1000),
      packPrice: new Decimal(pounds),
      currency: "GBP",
      stillSold: true,
    }));
    await addPacks(db, { supplierId: await supplierOf(making, name), added, ...act });
  }
  for (const { supplier, region, carriage, freeFrom } of demoTerms)
    await setTerms(db, {
      supplierId: await supplierOf(making, supplier),
      ...{ region, carriage: new Decimal(carriage), currency: "GBP", ...act },
      freeFrom: freeFrom === null ? null : new Decimal(freeFrom),
    });
}

async function supplierOf({ db }: Making, name: string): Promise<string> {
  const supplier = await findSupplier(db, name);
  if (!supplier) throw new Error(`${name} is not on record yet`);
  return supplier.id;
}

async function plan({ db, ids, recipeIds }: Making, at: Date): Promise<void> {
  for (const { glaze, number, grams, note } of demoPlans) {
    const revision = await findRevision(db, { recipeId: known(recipeIds, glaze), number });
    if (!revision) throw new Error(`${glaze} has no revision ${number}`);
    const planned = { revisionId: revision.id, baseGrams: new Decimal(grams), note };
    await addPlan(db, { ...planned, by: known(ids, "ines"), at });
  }
}
