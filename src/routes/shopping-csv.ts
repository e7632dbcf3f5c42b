import { moneyText } from "../chem/money-text.ts";
import { csvText } from "../wire/csv.ts";
import { saysOf } from "./shopping-json.ts";
import type { Order, ShoppingList } from "./shopping-list.ts";

const heading = [
  "supplier",
  "called",
  "studio's name",
  "caution",
  "pack grams",
  "packs",
  "one pack",
  "sum",
  "currency",
];

/** A shopping list for a spreadsheet: the packs, what sending costs, and what is to be known. */
export function shoppingCsv(list: ShoppingList): string {
  const currency = list.currency ?? "";
  const total = ["", "total", "", "", "", "", "", moneyText(list.total), currency];
  return csvText([
    heading,
    ...list.orders.flatMap((order) => rowsOf(order, currency)),
    total,
    ...saysOf(list).map((says) => ["", says]),
  ]);
}

const rowsOf = ({ supplier, packs, carriage }: Order, currency: string): string[][] => [
  ...packs.map(({ material, called, packGrams, packPrice, count, sum }) => [
    supplier.name,
    called?.name ?? material.name,
    material.name,
    [called?.caution, ...(called?.lookAlikes ?? []).map(alike)].filter(Boolean).join(" "),
    packGrams.toFixed(),
    String(count),
    moneyText(packPrice),
    moneyText(sum),
    currency,
  ]),
  [supplier.name, "carriage", "", "", "", "", "", moneyText(carriage), currency],
];

const alike = ({ word, name, caution }: { word: string; name: string; caution: string }): string =>
  `“${word}” is also a name of ${name}. ${caution}`.trim();
