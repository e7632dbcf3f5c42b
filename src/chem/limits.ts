import type { Chemistry, Quantity, UnityOxide } from "./chemistry-types.ts";
import { type Cone, compareCones } from "./cones.ts";
import { type Limited, type LimitSet, limitSets } from "./limit-sets.ts";

export type { Limited, LimitSet } from "./limit-sets.ts";

export type Limits = { kind: "limits"; sets: LimitSet[] } | { kind: "none"; says: string };

/**
 * The published limit formulas for a cone, and for one family where that is given: only those that
 * were printed for that cone. Between sets there is none, and nothing is interpolated.
 *
 * Worked examples: cone 9, "stoneware/porcelain" has one set, cone 7 has none.
 */
export function limitsFor(cone: Cone, family?: string): Limits {
  const sets = limitSets.filter(
    (set) =>
      compareCones(set.from, cone) <= 0 &&
      compareCones(cone, set.to) <= 0 &&
      (family === undefined || set.family === family),
  );
  return sets.length > 0
    ? { kind: "limits", sets }
    : { kind: "none", says: "no published limit held for this cone" };
}

/** Where a value with its ± lies; `cannot-be-told` where its ± reaches over an end. */
export type Placed = "inside" | "outside" | "cannot-be-told";

/**
 * Where a quantity lies between two ends, which count as inside. Worked number: 0.31 ± 0.02 cannot
 * be told from a least of 0.3, 0.33 ± 0.02 is inside, 0.27 ± 0.02 is outside.
 */
export function placed({ value, plusMinus }: Quantity, least: number, most: number): Placed {
  const [low, high] = [value - plusMinus - noise, value + plusMinus + noise];
  if (high < least || low > most) return "outside";
  return low >= least - 2 * noise && high <= most + 2 * noise ? "inside" : "cannot-be-told";
}

/** Float64 noise of a unity formula, so that a printed end counts as inside. */
const noise = 1e-9;

export type LimitRow = {
  oxide: Limited;
  value: number;
  plusMinus: number;
  least: number;
  most: number;
  is: Placed;
  says: string;
};

/** `notPrinted` are oxides of the glaze that the set says nothing about. */
export type LimitsCompared =
  | { kind: "compared"; set: LimitSet; rows: LimitRow[]; notPrinted: UnityOxide[] }
  | { kind: "no-unity"; says: string };

/** Less than this of an oxide is a trace that no limit formula was meant to name. */
const trace = 0.01;

/**
 * A glaze held against one limit formula, oxide by oxide, an absent oxide as 0 ± 0. Inside says that
 * the glaze lies where the author's glazes lay, and nothing of how it will wear, leach or fit. The
 * unity formula must have been worked out over the fluxes alone, as the sets were.
 */
export function compareWithLimits(chemistry: Chemistry, set: LimitSet): LimitsCompared {
  const { unity, conventions, ratios } = chemistry;
  if (unity === null) return { kind: "no-unity", says: "There is no flux, so no unity formula." };
  if (conventions.unity !== "fluxes") {
    const says = "Limit formulas count no colouring oxide as flux: work it out over the fluxes.";
    return { kind: "no-unity", says };
  }
  const rows = Object.entries(set.limits).map(([name, [least, most]]): LimitRow => {
    const oxide = name as Limited;
    const of = oxide === "KNaO" ? ratios.potashAndSoda : unity[oxide];
    const quantity = of ?? { value: 0, plusMinus: 0 };
    const is = placed(quantity, least, most);
    return { oxide, ...quantity, least, most, is, says: words[is] };
  });
  const named = new Set<string>(Object.keys(set.limits));
  if (named.has("KNaO")) named.add("K2O").add("Na2O");
  const notPrinted = (Object.keys(unity) as UnityOxide[]).filter(
    (oxide) => !named.has(oxide) && (unity[oxide]?.value ?? 0) > trace,
  );
  return { kind: "compared", set, rows, notPrinted };
}

const words: Readonly<Record<Placed, string>> = {
  inside: "inside the printed limits",
  outside: "outside the printed limits",
  "cannot-be-told": "cannot be told from these analyses",
};
