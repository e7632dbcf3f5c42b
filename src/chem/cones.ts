import { selfSupporting } from "./cone-tables.ts";

/**
 * Cones are an ordered list of names, never numbers: 06 is cooler than 04, and 04 than 4.
 * A leading zero is part of the name and is never taken off. Half cones are left out, since no
 * end point of theirs at 60 °C/h was seen in print.
 */
const names = [
  "022",
  "021",
  "020",
  "019",
  "018",
  "017",
  "016",
  "015",
  "014",
  "013",
  "012",
  "011",
  "010",
  "09",
  "08",
  "07",
  "06",
  "05",
  "04",
  "03",
  "02",
  "01",
  "1",
  "2",
  "3",
  "4",
  "5",
  "6",
  "7",
  "8",
  "9",
  "10",
  "11",
  "12",
  "13",
  "14",
] as const;

export type Cone = (typeof names)[number];

/** Every cone, coolest first. */
export const cones: readonly Cone[] = names;

/** Whether a text names a cone exactly as written: `06` and `6` do, `006`, `6.0` and ` 6` do not. */
export const isCone = (text: string): text is Cone => (cones as readonly string[]).includes(text);

/** Below 0 where `a` is the cooler cone, 0 where both are the same, above 0 where it is the hotter. */
export const compareCones = (a: Cone, b: Cone): number => cones.indexOf(a) - cones.indexOf(b);

/**
 * The cones from `low` to `high`, both included, coolest first; none where `low` is the hotter.
 * Worked example: 02 to 2 is 02, 01, 1, 2.
 */
export const conesBetween = (low: Cone, high: Cone): readonly Cone[] =>
  cones.slice(cones.indexOf(low), cones.indexOf(high) + 1);

export type ConeTemperature = {
  celsius: number;
  series: string;
  /** Heating rate over the last 100 °C, °C/h. */
  rate: number;
  source: string;
};

/**
 * The temperature to set beside a cone's first mention: the end point in °C of a self-supporting
 * cone heated at 60 °C/h over the last 100 °C, or undefined where none was seen in print (cones 11,
 * 12 and 14). It holds at that rate only: faster heating needs more. Worked number: cone 6 is
 * 1222 °C.
 */
export function coneCelsius(cone: Cone): ConeTemperature | undefined {
  const { series, source, rates, rows } = selfSupporting;
  const endPoint = rows.find((row) => row.cone === cone)?.endPoints[rates.indexOf(60)];
  if (!endPoint || endPoint.how === "from memory") return undefined;
  return { celsius: endPoint.celsius, series, rate: 60, source };
}
