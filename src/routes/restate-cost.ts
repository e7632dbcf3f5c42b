import { Decimal } from "decimal.js";
import { costOf, type Price, pricePerGram } from "../chem/cost.ts";
import { findPlanPrices } from "../db/plan-materials.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import type { RestateBody } from "../wire/restate-body.ts";
import { type OnShelf, type ShelfRead, strangers, type Target } from "./restate-reading.ts";

/** What powders cost by their newest lots, in one currency: material id → price. */
export type Prices = { currency: string; of: ReadonlyMap<string, Price> };

/** A shelf with its prices; null where nobody may know them, or nothing was bought yet. */
export type Priced = ShelfRead & { prices: Prices | null };

/**
 * The shelf with what its powders cost, for people of the studio. Where the cost counts, what has no
 * known price is left out: nobody could say what a mix with it comes to.
 */
export async function priced(
  c: Ctx,
  body: RestateBody,
  target: Target,
  read: ShelfRead,
): Promise<Priced> {
  const counts = body.cost?.most !== undefined || body.prefer === "cost";
  const refused = (says: string): Priced => ({
    ...read,
    prices: null,
    faults: [{ path: "cost", says }],
  });
  if (!c.var.viewer) return counts || body.cost ? refused(onlyMembers) : { ...read, prices: null };
  const ids = [
    ...read.shelf.flatMap(({ materialId }) => materialId ?? []),
    ...target.base.flatMap(({ pinned }) => pinned?.materialId ?? []),
  ];
  const { prices, currency: last } = await findPlanPrices(c.var.db, ids);
  const currency = body.cost?.currency ?? last;
  if (!currency) return counts ? refused(nothingBought) : { ...read, prices: null };
  const of = new Map([...prices].filter(([, price]) => price.currency === currency));
  const known = { currency, of };
  if (!counts) return { ...read, prices: known };
  const shelf = read.shelf.filter((each) => perKilogram(known, each) !== undefined);
  const leftOut = [
    ...read.leftOut,
    ...read.shelf
      .filter((each) => !shelf.includes(each))
      .map(({ key, name }) => ({ material: key, because: notKnown(name, currency) })),
  ];
  const faults: Fault[] = strangers(
    body,
    shelf.map(({ key }) => key),
    leftOut,
  );
  return { shelf, leftOut, faults, prices: known };
}

const onlyMembers =
  "What powders cost is for people of the studio. Sign in, or leave the cost out of it.";
const nothingBought =
  "No lot of any powder is on record, so nobody can say what a mix costs. Leave the cost out of it.";
const notKnown = (name: string, currency: string): string =>
  `${name} is left out, since the cost counts and no price of it in ${currency} is known.`;

/** What a kilogram of a powder costs; undefined where that is not known. */
export function perKilogram(prices: Prices | null, { materialId }: Pick<OnShelf, "materialId">) {
  const price = materialId === undefined ? undefined : prices?.of.get(materialId);
  return price && pricePerGram(price).times(1000).toNumber();
}

/** What a kilogram of a base costs, to four decimals, or which of its powders have no known price. */
export type BaseCost = { perKilogram: string | null; without: string[] };

export function costOfBase(
  base: readonly {
    name: string;
    amount: Parameters<typeof costOf>[0][number]["amount"];
    materialId: string | undefined;
  }[],
  { of }: Prices,
): BaseCost {
  const lines = base.map(({ name, amount, materialId }) => ({
    ...{ name, amount, part: "base" as const },
    price: (materialId === undefined ? undefined : of.get(materialId)) ?? null,
  }));
  const cost = costOf(lines, new Decimal(1000));
  return {
    perKilogram: cost?.total?.amount.toDecimalPlaces(4).toFixed() ?? null,
    without: cost?.without ?? [],
  };
}
