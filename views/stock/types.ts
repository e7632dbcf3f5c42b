import type { Decimal } from "decimal.js";
import type { LotAge } from "./words.ts";

export type ShownStockLot = {
  id: string;
  mark: string;
  supplier: string;
  boughtAt: Date;
  grams: Decimal;
  leftGrams: Decimal;
  bestBefore: string | null;
  age: LotAge;
  recalls: readonly { id: string; why: string }[];
};

export type ShownStock = {
  material: { slug: string; name: string };
  total: Decimal;
  usable: Decimal;
  perWeek: Decimal;
  line: Decimal;
  lineIs: "own" | "from use";
  isLow: boolean;
  lastsWeeks: Decimal | null;
  everBought: boolean;
  lots: readonly ShownStockLot[];
};

export const stockFilters = ["low", "expired", "recalled"] as const;
export type StockFilter = (typeof stockFilters)[number];
