import type { LotOnStock, StockOfMaterial } from "../db/stock-shelf.ts";

/** What there is of a material, decimals as strings: rounded where a division made them. */
export const stockJson = (item: StockOfMaterial) => ({
  material: item.material,
  totalGrams: item.total.toFixed(),
  usableGrams: item.usable.toFixed(),
  usedPerWeekGrams: item.perWeek.toDecimalPlaces(4).toFixed(),
  lineGrams: item.line.toDecimalPlaces(4).toFixed(),
  lineIs: item.lineIs,
  low: item.isLow,
  lastsWeeks: item.lastsWeeks?.toDecimalPlaces(2).toNumber() ?? null,
  lots: item.lots.map(lotOnStockJson),
});

export const lotOnStockJson = ({ grams, leftGrams, ...lot }: LotOnStock) => ({
  ...lot,
  grams: grams.toFixed(),
  leftGrams: leftGrams.toFixed(),
});
