import { type Bits, bitsOf, has, placesOf } from "./shelf-bits.ts";
import type { PlanPowder } from "./shelf-plan-types.ts";

/** What decides between two shelves that reach as many recipes: the cheaper, then the alphabet. */
export type ShelfRank = { unpriced: number; micros: number; alphabet: readonly number[] };

/**
 * Ranks shelves. Those with fewer powders whose price nobody knows come first, since what is not
 * known is not cheap; then those whose prices add up to less, for a gram unless said; then the smaller
 * ones; then by their names in the order of the alphabet.
 */
export type ShelfOrder = {
  readonly rank: (shelf: Bits) => ShelfRank;
  /** The shelf of that size that would come first of all that hold `taken` and are of `allowed`. */
  readonly cheapest: (taken: Bits, allowed: Bits, size: number) => Bits;
  /** What no shelf of that size that holds `taken` and is of `allowed` comes before. */
  readonly least: (taken: Bits, allowed: Bits, size: number) => ShelfRank;
};

export function orderOf(
  powders: readonly PlanPowder[],
  priceOf: (powder: PlanPowder) => number | null = ({ microsPerGram }) => microsPerGram,
): ShelfOrder {
  const places = [...powders.keys()];
  const label = (at: number) => (powders[at]?.label ?? "").toLowerCase();
  const byName = (a: number, b: number) =>
    label(a) === label(b) ? a - b : label(a) < label(b) ? -1 : 1;
  const alphabet = [...places].sort(byName);
  const placeInAlphabet = new Map(alphabet.map((at, place) => [at, place]));
  const prices = powders.map(priceOf);
  const price = (at: number) => prices[at] ?? null;
  const dear = (at: number) => price(at) ?? Number.POSITIVE_INFINITY;
  const byPrice = [...places].sort((a, b) =>
    dear(a) === dear(b) ? byName(a, b) : dear(a) - dear(b),
  );

  const rank = (shelf: Bits): ShelfRank => {
    const of = placesOf(shelf);
    return {
      unpriced: of.filter((at) => price(at) === null).length,
      micros: of.reduce((sum, at) => sum + (price(at) ?? 0), 0),
      alphabet: of.map((at) => placeInAlphabet.get(at) ?? 0).sort((a, b) => a - b),
    };
  };
  const filled = (from: readonly number[], taken: Bits, allowed: Bits, size: number): Bits => {
    const more = from.filter((at) => has(allowed, at) && !has(taken, at));
    const of = placesOf(taken);
    return bitsOf([...of, ...more.slice(0, Math.max(0, size - of.length))]);
  };
  const cheapest = (taken: Bits, allowed: Bits, size: number) =>
    filled(byPrice, taken, allowed, size);
  const least = (taken: Bits, allowed: Bits, size: number): ShelfRank => ({
    ...rank(cheapest(taken, allowed, size)),
    alphabet: rank(filled(alphabet, taken, allowed, size)).alphabet,
  });
  return { rank, cheapest, least };
}

/** Below 0 where the first comes before the second. */
export function compareRanks(a: ShelfRank, b: ShelfRank): number {
  if (a.unpriced !== b.unpriced) return a.unpriced - b.unpriced;
  if (a.micros !== b.micros) return a.micros - b.micros;
  if (a.alphabet.length !== b.alphabet.length) return a.alphabet.length - b.alphabet.length;
  for (let at = 0; at < a.alphabet.length; at++) {
    const apart = (a.alphabet[at] ?? 0) - (b.alphabet[at] ?? 0);
    if (apart !== 0) return apart;
  }
  return 0;
}
