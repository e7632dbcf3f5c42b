import { Decimal } from "decimal.js";
import { atomicWeight, type ElementSymbol } from "../../src/chem/elements.ts";

const D = Decimal.clone({ precision: 40 });

/** A number of forty digits; what is worked out from it has forty as well. */
export const d = (value: Decimal.Value): Decimal => new D(value);
export const zero = d(0);

export type Exact = { value: Decimal; plusMinus: Decimal };

const known = new Map<string, Decimal>();

/** The molar mass of an oxide from its name, g/mol. */
export const massOf = (oxide: string): Decimal => {
  const before = known.get(oxide);
  if (before) return before;
  let sum = zero;
  for (const [, symbol, count] of oxide.matchAll(/([A-Z][a-z]?)(\d*)/g)) {
    sum = sum.plus(d(atomicWeight[symbol as ElementSymbol]).times(count || 1));
  }
  known.set(oxide, sum);
  return sum;
};
