import { Decimal } from "decimal.js";
import { type Buying, billsOf, isEnough, missingFor } from "../chem/buying.ts";
import { type LpLimits, type LpModel, solveLp } from "./lp.ts";
import type { TaskRun } from "./solver-tasks.ts";

/** Decimals as their digits, which a thread's message keeps. Every powder has a pack. */
export type BuyingAsked = {
  packs: { supplier: number; material: number; grams: string; price: string }[];
  suppliers: { carriage: string; freeFrom: string | null }[];
  there: string[];
  wishes: string[][];
  /** The most that all of it may cost, carriage too; null where nobody set a limit. */
  budget: string | null;
};

export type Bought = {
  /** How many of each pack. */
  counts: number[];
  /** Whether each wish is met. */
  met: boolean[];
  /** What everything that is wished for would cost at the least that was found. */
  forAll: string;
  /** false where a search was cut off, so that a cheaper way may exist. */
  proven: boolean;
};

/** Ends a search at the same place every time. */
const mostNodes = 20_000;

/** The part of the guard after which no further wish is tried. */
const shareOfGuard = 0.8;

/**
 * The cheapest packs for what is wished. Where the budget does not reach for all of it, wishes are
 * met in their order, each one where it still can be beside those before it, and then as cheaply as
 * can be. What the solver finds counts where the exact sums bear it out.
 */
export async function buy(asked: BuyingAsked, run: TaskRun): Promise<Bought> {
  const end = performance.now() + run.seconds * shareOfGuard * 1000;
  const limits = (): LpLimits => ({
    nodes: mostNodes,
    seconds: Math.max(0.1, (end - performance.now()) / 1000),
  });
  const buying = readBuying(asked);
  const { wishes } = buying;
  const everything = await cheapest(
    buying,
    missingFor(
      buying,
      wishes.map(() => true),
    ),
    limits(),
  );
  const budget = asked.budget === null ? null : new Decimal(asked.budget);
  const forAll = everything.total.toFixed();
  if (budget === null || everything.total.lte(budget))
    return {
      counts: everything.counts,
      met: wishes.map(() => true),
      forAll,
      proven: everything.proven,
    };

  let counts = buying.packs.map(() => 0);
  let met = wishes.map(() => false);
  let proven = everything.proven;
  for (const place of wishes.keys()) {
    const next = met.with(place, true);
    const missing = missingFor(buying, next);
    if (isEnough(buying.packs, counts, missing)) {
      met = next;
      continue;
    }
    if (performance.now() > end) return { counts, met, forAll, proven: false };
    const found = await cheapest(buying, missing, limits());
    proven &&= found.proven;
    if (found.total.lte(budget)) ({ met, counts } = { met: next, counts: found.counts });
    run.progress({ counts, met, forAll, proven: false } satisfies Bought);
  }
  return { counts, met, forAll, proven };
}

const readBuying = ({ packs, suppliers, there, wishes }: BuyingAsked): Buying => ({
  packs: packs.map(({ grams, price, ...pack }) => ({
    ...pack,
    grams: new Decimal(grams),
    price: new Decimal(price),
  })),
  suppliers: suppliers.map(({ carriage, freeFrom }) => ({
    carriage: new Decimal(carriage),
    freeFrom: freeFrom === null ? null : new Decimal(freeFrom),
  })),
  there: there.map((grams) => new Decimal(grams)),
  wishes: wishes.map((wish) => wish.map((grams) => new Decimal(grams))),
});

type Order = { counts: number[]; total: Decimal; proven: boolean };

async function cheapest(
  buying: Buying,
  missing: readonly Decimal[],
  limits: LpLimits,
): Promise<Order> {
  const { packs } = buying;
  const answer = await solveLp(modelOf(buying, missing), limits);
  const values = answer.kind === "infeasible" ? undefined : answer.values;
  const found = values && packs.map((_, place) => Math.round(values[`x${place}`] ?? 0));
  const counts = found && isEnough(packs, found, missing) ? found : plainly(buying, missing);
  return {
    counts,
    total: billsOf(buying, counts).total,
    proven: answer.kind === "optimal" && counts === found,
  };
}

/** Of each powder the pack that covers it most cheaply by itself, for a search without an answer. */
function plainly({ packs }: Buying, missing: readonly Decimal[]): number[] {
  const counts = packs.map(() => 0);
  for (const [material, grams] of missing.entries()) {
    const [best] = packs
      .map((pack, place) => ({ ...pack, place, count: packsFor(grams, pack) }))
      .filter((pack) => pack.material === material)
      .sort((a, b) => a.price.times(a.count).comparedTo(b.price.times(b.count)));
    if (best) counts[best.place] = best.count;
  }
  return counts;
}

const packsFor = (missing: Decimal, { grams }: { grams: Decimal }): number =>
  missing.div(grams).ceil().toNumber();

/**
 * The model: x of each pack; of a supplier with carriage y, 1 where anything is bought of it, and f,
 * 1 where it sends without. Smallest is Σ price × x + Σ carriage × (y − f).
 *
 *     Σ grams × x ≥ missing of each powder, in kilograms, x ≤ most × y, f ≤ y,
 *     Σ price × x ≥ free from × f of each supplier
 *
 * Buying more than is missing can be cheaper than the carriage, so `most` has room for that.
 */
function modelOf({ packs, suppliers }: Buying, missing: readonly Decimal[]): LpModel {
  const model: LpModel = { variables: [], rows: [], minimise: {} };
  for (const [place, pack] of packs.entries()) {
    const most =
      packsFor(missing[pack.material] ?? new Decimal(0), pack) + filling(pack, suppliers);
    model.variables.push({ name: `x${place}`, most, integer: true });
    model.minimise[`x${place}`] = pack.price.toNumber();
    if (!takesCarriage(suppliers[pack.supplier])) continue;
    model.rows.push({ coefficients: { [`x${place}`]: 1, [`y${pack.supplier}`]: -most }, most: 0 });
  }
  for (const [material, grams] of missing.entries()) {
    if (grams.isZero()) continue;
    const coefficients = coefficientsOf(packs, (pack) =>
      pack.material === material ? pack.grams.div(1000) : undefined,
    );
    model.rows.push({ coefficients, least: grams.div(1000).toNumber() });
  }
  for (const [supplier, terms] of suppliers.entries()) {
    if (!takesCarriage(terms)) continue;
    const [y, f] = [`y${supplier}`, `f${supplier}`];
    model.variables.push({ name: y, most: 1, integer: true });
    model.minimise[y] = terms.carriage.toNumber();
    if (terms.freeFrom === null) continue;
    model.variables.push({ name: f, most: 1, integer: true });
    model.minimise[f] = -terms.carriage.toNumber();
    model.rows.push({ coefficients: { [f]: 1, [y]: -1 }, most: 0 });
    const prices = coefficientsOf(packs, (pack) =>
      pack.supplier === supplier ? pack.price : undefined,
    );
    model.rows.push({ coefficients: { ...prices, [f]: -terms.freeFrom.toNumber() }, least: 0 });
  }
  return model;
}

const takesCarriage = (terms: Buying["suppliers"][number] | undefined): boolean =>
  terms?.carriage.gt(0) ?? false;

/** How many of a pack may be bought beside what is missing, to come to where carriage ends. */
function filling(
  { supplier, price }: Buying["packs"][number],
  suppliers: Buying["suppliers"],
): number {
  const terms = suppliers[supplier];
  // What costs more than the carriage does saves nothing.
  if (!terms?.freeFrom || price.isZero() || price.gte(terms.carriage)) return 0;
  return Decimal.min(terms.carriage, terms.freeFrom).div(price).ceil().toNumber();
}

function coefficientsOf(
  packs: Buying["packs"],
  of: (pack: Buying["packs"][number]) => Decimal | undefined,
): Record<string, number> {
  return Object.fromEntries(
    packs.flatMap((pack, place) => {
      const value = of(pack);
      return value ? [[`x${place}`, value.toNumber()]] : [];
    }),
  );
}
