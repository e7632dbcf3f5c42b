import type { HowSure } from "./chemistry-types.ts";

/** What the series of 1912 held constant or kept within; its fields are named only in here. */
export const series1912 = {
  cones: { from: "10", to: "12" },
  mostB2O3: 0.05,
  potashAndSoda: { least: 0.2, most: 0.4 },
  leastCaO: 0.5,
  mostOther: 0.1,
  fluxes: "0.3 K2O + 0.7 CaO, constant, fired to cone 11",
  source:
    "R. T. Stull, Transactions of the American Ceramic Society 14 (1912), 62–70; R. T. Stull & W. L. Howat, the same 16 (1914), 454; scope from memory",
} as const;

/** What the map shows, moles in the unity formula. The ends are from memory, low confidence. */
export const mapAxes = { Al2O3: { from: 0.2, to: 1.1 }, SiO2: { from: 1, to: 9 } } as const;

/** Where one field gives way to the next, as a ratio of SiO2 to Al2O3. */
export type Boundary = {
  readonly ratio: number;
  readonly below: FieldName;
  readonly above: FieldName;
  readonly source: string;
  readonly howSure: HowSure;
};

export type FieldName = "matt" | "semi-matt" | "bright" | "high-silica matt or underfired";

const restated = "R. T. Stull (1912) as restated in later literature; from memory";

/**
 * The boundaries as ratio lines, lowest first. They are restatements and no values of Stull's own
 * tables. His unfused and crazed fields have no ratio for a boundary and are not held.
 */
export const boundaries: readonly Boundary[] = [
  { ratio: 5, below: "matt", above: "semi-matt", source: restated, howSure: "low" },
  { ratio: 6.5, below: "semi-matt", above: "bright", source: restated, howSure: "low" },
  {
    ratio: 12,
    below: "bright",
    above: "high-silica matt or underfired",
    source: "later literature; from memory",
    howSure: "low",
  },
];
