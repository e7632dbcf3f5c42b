import { type Doubt, doubtsOf } from "./account-doubts.ts";
import { fractionOf } from "./account-fractions.ts";
import {
  type Brought,
  broughtBy,
  type FigureUsed,
  figuresUsed,
  readAlone,
} from "./account-lines.ts";
import { type NumberName, quantityNamed, readNumberName } from "./account-names.ts";
import { countedAs, definitionOf } from "./account-words.ts";
import { type ChemistryRequest, type Quantity, workOut } from "./chemistry.ts";
import { meltOf } from "./melt.ts";

export type { Doubt } from "./account-doubts.ts";
export type { Brought, FigureUsed } from "./account-lines.ts";
export type { NumberName } from "./account-names.ts";

/** Where a computed number comes from. */
export type Account = {
  name: NumberName;
  quantity: Quantity;
  unit: string;
  definition: string;
  /** Which line brings how much of what is counted, and of what it is divided by. */
  brings: Brought[];
  figures: FigureUsed[];
  /** Largest first, their shares adding up to 1; empty where the number is ± 0. */
  doubts: Doubt[];
  /** The conventions that the number depends on, in sentences. */
  counted: string[];
  engine: string;
};

/**
 * Where a number of a chemistry comes from, or undefined where there is none of that name
 * (NumberName). The request must have no faults. `quantity` is that of `workOut`, and the root of
 * the sum of the squares of the doubts' `plusMinus` is its ±.
 *
 * Worked number: Seger's cone 4, feldspar 83.55, whiting 35, quartz 54, kaolin 25.90: of `unity.CaO`,
 * 0.70, the whiting brings all; the fluxes it is divided by are 0.30 feldspar's and 0.70 whiting's.
 */
export function accountOf(request: ChemistryRequest, name: string): Account | undefined {
  const named = readNumberName(name);
  if (!named) return undefined;
  const chemistry = workOut(request);
  const quantity = quantityNamed(chemistry, named);
  if (!quantity) return undefined;
  const melt = meltOf(request);
  const fraction = fractionOf(named, melt, chemistry.conventions);
  const read = readAlone(request);
  return {
    name: named.name,
    quantity,
    ...definitionOf(named),
    brings: broughtBy(read, fraction),
    figures: figuresUsed(read, fraction),
    doubts: doubtsOf(request, melt, fraction),
    counted: countedAs(named, request, chemistry),
    engine: chemistry.engine,
  };
}
