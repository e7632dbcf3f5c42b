/**
 * Cones are an ordered list of names, never numbers: 06 is cooler than 04, and 04 than 4.
 * A leading zero is part of the name and is never taken off. Half cones are left out, since no
 * end point of theirs at 60 °C/h was seen in print.
 *
 * The figure is the end point in °C of a self-supporting cone heated at 60 °C/h over the last
 * 100 °C. Source: Edward Orton Jr. Ceramic Foundation, "Temperature Equivalents for Orton
 * Pyrometric Cones (°C)", chart C-022-14 (2016); cones 07 to 10 from its °F twin, converted.
 * Cones 11, 12 and 14 were not seen in print and have none.
 */
const endPoints = [
  ["022", 586],
  ["021", 600],
  ["020", 626],
  ["019", 678],
  ["018", 715],
  ["017", 738],
  ["016", 772],
  ["015", 791],
  ["014", 807],
  ["013", 837],
  ["012", 861],
  ["011", 875],
  ["010", 903],
  ["09", 920],
  ["08", 942],
  ["07", 976],
  ["06", 998],
  ["05", 1031],
  ["04", 1063],
  ["03", 1086],
  ["02", 1102],
  ["01", 1119],
  ["1", 1137],
  ["2", 1142],
  ["3", 1152],
  ["4", 1162],
  ["5", 1186],
  ["6", 1222],
  ["7", 1239],
  ["8", 1249],
  ["9", 1260],
  ["10", 1285],
  ["11", undefined],
  ["12", undefined],
  ["13", 1331],
  ["14", undefined],
] as const;

export type Cone = (typeof endPoints)[number][0];

/** Every cone, coolest first. */
export const cones: readonly Cone[] = endPoints.map(([cone]) => cone);

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
 * The temperature to set beside a cone's first mention, or undefined where none was seen in print.
 * It holds at that rate only: faster heating needs more. Worked number: cone 6 is 1222 °C.
 */
export function coneCelsius(cone: Cone): ConeTemperature | undefined {
  const celsius = endPoints.find(([name]) => name === cone)?.[1];
  if (celsius === undefined) return undefined;
  return {
    celsius,
    series: "Orton self-supporting cones",
    rate: 60,
    source:
      "Edward Orton Jr. Ceramic Foundation, Temperature Equivalents for Orton Pyrometric Cones (°C), chart C-022-14 (2016)",
  };
}
