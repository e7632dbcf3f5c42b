import { Decimal } from "decimal.js";
import { type Bill, billsOf, boughtOf } from "../chem/buying.ts";
import { type NeedRow, needRows } from "../chem/shopping-needs.ts";
import { findMaterialsBySlug, type MaterialOnShelf } from "../db/materials.ts";
import { findNamesIn, type NameThere } from "../db/names-in-region.ts";
import { findCurrency } from "../db/newest-prices.ts";
import { type ListedPack, listPacks } from "../db/packs.ts";
import { listTerms, type Terms } from "../db/supplier-terms.ts";
import type { Ctx } from "../wire/context.ts";
import type { ShoppingAsked } from "../wire/shopping-query.ts";
import type { Bought, BuyingAsked } from "../work/buying.ts";
import { type Solved, solver } from "../work/solver.ts";
import type { Wish, WishesRead } from "./shopping-wishes.ts";
import { askerOf } from "./solved.ts";

/** A powder of the list: what is needed, what is there, what is bought of it. */
export type Row = NeedRow & {
  material: MaterialOnShelf;
  bought: Decimal;
  /** Why nothing of what is missing is bought; null where that is not so. */
  notBought: "no longer sold" | "no price known" | null;
};

/** What is bought of a supplier. */
export type Order = Omit<Bill, "supplier"> & {
  supplier: ListedPack["supplier"];
  /** null where it is not on record in this currency: nothing is counted for it then. */
  terms: Terms | null;
  region: string;
  packs: (ListedPack & { count: number; sum: Decimal; called: NameThere | null })[];
};

export type ShoppingList = {
  currency: string | null;
  budget: Decimal | null;
  wishes: (Wish & { met: boolean; lacks: string[] })[];
  rows: Row[];
  orders: Order[];
  total: Decimal;
  /** What all of it would cost, without what has no price. */
  forAll: Decimal;
  /** Packs of what is missing that are left out, since their price is in another currency. */
  otherCurrencies: ListedPack[];
  hiddenPlans: number;
  proven: boolean;
};

export type Listed =
  | { kind: "list"; list: ShoppingList }
  | { kind: "unsolved"; solved: Exclude<Solved<unknown>, { kind: "done" | "stopped" }> };

/** What to buy for what is wished, by the cheapest packs that are on record. */
export async function shoppingList(
  c: Ctx,
  asked: ShoppingAsked,
  { wishes, stock, hiddenPlans }: WishesRead,
): Promise<Listed> {
  const { db, studio } = c.var;
  const usable = new Map([...stock].map(([slug, item]) => [slug, item.usable]));
  const needed = needRows(
    wishes.map(({ needs }) => needs),
    usable,
  );
  const materials = await findMaterialsBySlug(
    db,
    needed.map(({ slug }) => slug),
  );
  const missing = needed.filter((row) => row.missing.gt(0));
  const offered = (await listPacks(db)).filter((pack) => {
    const material = materials.get(pack.material.slug);
    return material?.stillSold && missing.some(({ slug }) => slug === material.slug);
  });
  const currency = asked.currency ?? (await findCurrency(db, studio)) ?? null;
  const packs = offered.filter((pack) => pack.currency === currency);
  const priced = missing.filter(({ slug }) => packs.some((pack) => pack.material.slug === slug));
  const terms = await listTerms(db);
  const sold = { packs, priced, terms, currency };
  const solved = await solve(c, wishes, sold, asked.budget ?? null);
  if (solved.kind !== "done" && solved.kind !== "stopped") return { kind: "unsolved", solved };
  const bought = solved.kind === "done" ? solved.output : solved.best;
  const grams = boughtOf(placed(sold).packs, bought.counts, priced.length);
  const { orders, total } = await ordersOf(c, asked, sold, bought.counts);
  const rows = needed.flatMap((row): Row[] => {
    const material = materials.get(row.slug);
    if (!material) return [];
    const place = priced.findIndex(({ slug }) => slug === row.slug);
    const unsold = material.stillSold ? ("no price known" as const) : ("no longer sold" as const);
    return [
      {
        ...row,
        material,
        bought: grams[place] ?? new Decimal(0),
        notBought: place < 0 && row.missing.gt(0) ? unsold : null,
      },
    ];
  });
  return {
    kind: "list",
    list: {
      ...{ currency, budget: asked.budget ?? null, rows, orders, total, hiddenPlans },
      wishes: wishes.map((wish, place) => ({
        ...wish,
        met: bought.met[place] ?? false,
        lacks: rows.flatMap(({ slug, material, notBought }) =>
          notBought && wish.needs.get(slug)?.gt(0) ? [material.name] : [],
        ),
      })),
      forAll: new Decimal(bought.forAll),
      otherCurrencies: offered.filter((pack) => pack.currency !== currency),
      proven: bought.proven,
    },
  };
}

type Sold = {
  packs: readonly ListedPack[];
  priced: readonly NeedRow[];
  terms: ReadonlyMap<string, Terms>;
  currency: string | null;
};

const suppliersOf = ({ packs }: Sold) => [
  ...new Map(packs.map(({ supplier }) => [supplier.id, supplier])).values(),
];

/** Carriage in another currency cannot be added up, so it is told and not counted. */
const termsOf = ({ terms, currency }: Sold, supplierId: string): Terms | null => {
  const known = terms.get(supplierId);
  return known?.currency === currency ? known : null;
};

/** Packs and carriage by the places of suppliers and powders, as the sums take them. */
function placed(sold: Sold) {
  const suppliers = suppliersOf(sold);
  return {
    packs: sold.packs.map(({ supplier, material, packGrams, packPrice }) => ({
      supplier: suppliers.findIndex(({ id }) => id === supplier.id),
      material: sold.priced.findIndex(({ slug }) => slug === material.slug),
      grams: packGrams,
      price: packPrice,
    })),
    suppliers: suppliers.map(({ id }) => {
      const terms = termsOf(sold, id);
      return { carriage: terms?.carriage ?? new Decimal(0), freeFrom: terms?.freeFrom ?? null };
    }),
  };
}

async function solve(
  c: Ctx,
  wishes: readonly Wish[],
  sold: Sold,
  budget: Decimal | null,
): Promise<Solved<Bought>> {
  const { packs, suppliers } = placed(sold);
  const digits = (amount: Decimal | undefined): string => amount?.toFixed() ?? "0";
  const asked: BuyingAsked = {
    packs: packs.map((pack) => ({
      ...pack,
      grams: pack.grams.toFixed(),
      price: pack.price.toFixed(),
    })),
    suppliers: suppliers.map(({ carriage, freeFrom }) => ({
      carriage: carriage.toFixed(),
      freeFrom: freeFrom?.toFixed() ?? null,
    })),
    there: sold.priced.map(({ there }) => there.toFixed()),
    wishes: wishes.map(({ needs }) => sold.priced.map(({ slug }) => digits(needs.get(slug)))),
    budget: budget?.toFixed() ?? null,
  };
  if (packs.length > 0) return solver.solve("buying", asked, askerOf(c));
  const met = wishes.map(() => true);
  return { kind: "done", output: { counts: [], met, forAll: "0", proven: true } };
}

async function ordersOf(
  c: Ctx,
  { region: asked }: ShoppingAsked,
  sold: Sold,
  counts: readonly number[],
): Promise<{ orders: Order[]; total: Decimal }> {
  const suppliers = suppliersOf(sold);
  const { bills, total } = billsOf(placed(sold), counts);
  const orders: Order[] = [];
  for (const { supplier: place, ...bill } of bills) {
    const supplier = suppliers[place];
    if (!supplier) continue;
    const region = asked ?? sold.terms.get(supplier.id)?.region ?? "";
    const own = sold.packs.flatMap((pack, at) => {
      const count = counts[at] ?? 0;
      const isOwn = pack.supplier.id === supplier.id && count > 0;
      return isOwn ? [{ ...pack, count, sum: pack.packPrice.times(count) }] : [];
    });
    const materialIds = own.map(({ material }) => material.id);
    const names =
      region === ""
        ? new Map<string, NameThere | null>()
        : await findNamesIn(c.var.db, { region, materialIds });
    orders.push({
      ...bill,
      supplier,
      region,
      terms: termsOf(sold, supplier.id),
      packs: own.map((pack) => ({ ...pack, called: names.get(pack.material.id) ?? null })),
    });
  }
  return { orders, total };
}
