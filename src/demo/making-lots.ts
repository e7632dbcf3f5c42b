import { Decimal } from "decimal.js";
import { addLot, listLots } from "../db/lots.ts";
import { countLots } from "../db/stock-counting.ts";
import { addSupplier, findSupplier } from "../db/suppliers.ts";
import { type Entry, entry, known } from "./diary.ts";
import { type DemoLot, demoCounts, demoLots, demoSuppliers } from "./suppliers.ts";

/** The suppliers the day after the shelf was put up, then the bills of what stands on it. */
export const lotEntries = (): Entry[] => [
  ...demoSuppliers.map(({ name, about }, place) =>
    entry(minutesAfter("2026-01-13T09:00:00Z", place), async ({ db, ids }, at) => {
      const added = await addSupplier(db, { name, about, by: known(ids, "ines"), at });
      if (added.kind !== "added") throw new Error(`${name} is on record twice`);
    }),
  ),
  ...demoLots.map((lot, place) =>
    entry(lot.at ?? minutesAfter("2026-01-13T10:00:00Z", place * 2), buy(lot)),
  ),
  entry("2026-11-02T18:00:00Z", countSome),
];

const minutesAfter = (at: string, minutes: number): string =>
  new Date(Date.parse(at) + minutes * 60_000).toISOString();

const buy =
  ({
    material,
    supplier: name,
    packKilograms,
    packPounds,
    packs,
    mark = "",
    bestBefore,
  }: DemoLot): Entry["happens"] =>
  async ({ db, ids, materialIds }, at) => {
    const supplier = await findSupplier(db, name);
    if (!supplier) throw new Error(`${name} is not on record yet`);
    const packGrams = new Decimal(packKilograms).times(1000);
    await addLot(db, {
      materialId: known(materialIds, material),
      supplierId: supplier.id,
      analysisId: null,
      packGrams,
      packPrice: new Decimal(packPounds),
      currency: "GBP",
      grams: packGrams.times(packs),
      mark,
      bestBefore,
      by: known(ids, "ines"),
      at,
    });
  };

const countSome: Entry["happens"] = async ({ db, ids, materialIds }, at) => {
  const counts = [];
  for (const { material, missing } of demoCounts) {
    const [newest] = await listLots(db, known(materialIds, material));
    if (!newest) throw new Error(`nobody bought ${material}`);
    counts.push({
      lotId: newest.id,
      grams: newest.leftGrams.minus(missing),
      why: "Before winter.",
    });
  }
  await countLots(db, { counts, by: known(ids, "rukmini"), at });
};
