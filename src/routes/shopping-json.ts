import { moneyText } from "../chem/money-text.ts";
import type { Order, Row, ShoppingList } from "./shopping-list.ts";

/** A shopping list, money and weights as decimal strings. */
export function shoppingJson(list: ShoppingList) {
  const { budget, total, forAll } = list;
  return {
    currency: list.currency,
    budget: budget && moneyText(budget),
    wishes: list.wishes.map(({ kind, id, says, met, lacks }) => ({ kind, id, says, met, lacks })),
    materials: list.rows.map(rowJson),
    suppliers: list.orders.map(orderJson),
    total: moneyText(total),
    forAll: moneyText(forAll),
    missingToAll: budget && forAll.gt(budget) ? moneyText(forAll.minus(budget)) : null,
    proven: list.proven,
    says: saysOf(list),
  };
}

const rowJson = ({ material, needed, there, missing, bought, notBought }: Row) => ({
  material: { slug: material.slug, name: material.name },
  neededGrams: needed.toFixed(),
  thereGrams: there.toFixed(),
  missingGrams: missing.toFixed(),
  boughtGrams: bought.toFixed(),
  notBought,
});

const orderJson = ({ supplier, terms, region, packs, ...bill }: Order) => ({
  supplier: { slug: supplier.slug, name: supplier.name },
  region,
  packs: packs.map(({ material, called, packGrams, packPrice, count, sum, from }) => ({
    material: { slug: material.slug, name: material.name },
    called,
    packGrams: packGrams.toFixed(),
    packPrice: moneyText(packPrice),
    count,
    sum: moneyText(sum),
    from,
  })),
  subtotal: moneyText(bill.subtotal),
  carriage: moneyText(bill.carriage),
  carriageKnown: terms !== null,
  freeFrom: terms?.freeFrom ? moneyText(terms.freeFrom) : null,
  toFree: bill.toFree && moneyText(bill.toFree),
  total: moneyText(bill.total),
});

/** What is to be known of a list beside its figures, a sentence each. */
export function saysOf(list: ShoppingList): string[] {
  const { rows, wishes, orders, budget, forAll, currency } = list;
  const says: string[] = [];
  if (wishes.length === 0) says.push("Nothing is planned and nothing is ticked.");
  else if (rows.every(({ missing }) => missing.isZero()))
    says.push("All that is needed is there: nothing has to be bought.");
  for (const because of ["no price known", "no longer sold"] as const) {
    const names = rows.filter((row) => row.notBought === because).map((row) => row.material.name);
    if (names.length > 0)
      says.push(`${unsoldWords[because]}: ${names.join(", ")}. The total is without it.`);
  }
  const elsewhere = [...new Set(list.otherCurrencies.map((pack) => pack.currency))];
  if (elsewhere.length > 0)
    says.push(
      `Packs priced in ${elsewhere.join(", ")} are left out: a list is in one currency, this one in ${currency}.`,
    );
  for (const { supplier } of orders.filter(({ terms }) => terms === null))
    says.push(
      `What ${supplier.name} takes for sending is not on record in ${currency}: nothing is counted for it.`,
    );
  if (budget && forAll.gt(budget)) says.push(budgetWords(list, budget));
  if (!list.proven) says.push("The search was cut off before its end: a cheaper list may exist.");
  if (list.hiddenPlans > 0)
    says.push(
      `Not counted, since you may not know of their recipes: ${list.hiddenPlans} planned ${list.hiddenPlans === 1 ? "batch" : "batches"}.`,
    );
  return says;
}

const unsoldWords = {
  "no price known": "No price is known",
  "no longer sold": "No longer sold",
} as const;

function budgetWords({ wishes, forAll, currency }: ShoppingList, budget: ShoppingList["forAll"]) {
  const met = wishes.filter((wish) => wish.met).length;
  const more = `${moneyText(forAll.minus(budget))} ${currency} more would buy all of it, ${moneyText(forAll)} ${currency}.`;
  return met === 0
    ? `The budget of ${moneyText(budget)} ${currency} reaches for none of it. ${more}`
    : `The budget of ${moneyText(budget)} ${currency} reaches for ${met} of ${wishes.length}. ${more}`;
}
