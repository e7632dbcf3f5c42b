import type { BuyingAsked } from "../../src/work/buying.ts";

/** The best of all orders of up to `most` of each pack: which wishes it meets, and what it costs. */
export type BruteBought = { met: boolean[]; cost: number; forAll: number };

/**
 * Tries every order, in whole numbers: grams and the smallest coin. Of those within the budget the
 * one that meets the first wishes first, and of such the cheapest. It knows nothing of linear
 * programming.
 */
export function bruteBuying(asked: BuyingAsked, most: number): BruteBought {
  const packs = asked.packs.map(({ supplier, material, grams, price }) => ({
    ...{ supplier, material, grams: Number(grams) },
    price: coins(price),
  }));
  const wishes = asked.wishes.map((wish) => wish.map(Number));
  const there = asked.there.map((grams) => Math.max(0, Number(grams)));
  const budget = asked.budget === null ? Infinity : coins(asked.budget);
  let best: BruteBought | undefined;
  let forAll = Infinity;
  const order = packs.map(() => 0);
  for (;;) {
    const have = there.slice();
    const spent = asked.suppliers.map(() => 0);
    packs.forEach(({ material, supplier, grams, price }, place) => {
      have[material]! += order[place]! * grams;
      spent[supplier]! += order[place]! * price;
    });
    const cost = spent.reduce((sum, coinsSpent, supplier) => {
      const isAsked = packs.some((pack, place) => pack.supplier === supplier && order[place]! > 0);
      const { carriage, freeFrom } = asked.suppliers[supplier]!;
      const free = freeFrom !== null && coinsSpent >= coins(freeFrom);
      return sum + coinsSpent + (isAsked && !free ? coins(carriage) : 0);
    }, 0);
    const left = have.slice();
    const met = wishes.map((wish) => {
      if (wish.some((grams, material) => grams > left[material]!)) return false;
      wish.forEach((grams, material) => {
        left[material]! -= grams;
      });
      return true;
    });
    if (met.every(Boolean)) forAll = Math.min(forAll, cost);
    if (cost <= budget && (!best || isBetter({ met, cost }, best))) best = { met, cost, forAll: 0 };
    const place = order.findIndex((count) => count < most);
    if (place < 0) break;
    order.fill(0, 0, place);
    order[place]! += 1;
  }
  if (!best) throw new Error("nothing is within every budget");
  return { ...best, forAll };
}

const coins = (price: string): number => Math.round(Number(price) * 100);

function isBetter(one: Omit<BruteBought, "forAll">, other: BruteBought): boolean {
  const first = one.met.findIndex((met, place) => met !== other.met[place]);
  return first >= 0 ? one.met[first]! : one.cost < other.cost;
}
