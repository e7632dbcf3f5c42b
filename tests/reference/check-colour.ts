import { deltaE00, type Lab } from "../../src/chem/colour.ts";
import type { CheckFamily } from "./check-family.ts";
import pairs from "./ciede2000.json" with { type: "json" };

const labOf = ([
  lightness = Number.NaN,
  a = Number.NaN,
  b = Number.NaN,
]: readonly number[]): Lab => ({
  lightness,
  a,
  b,
});

const written = (lab: readonly number[]): string => lab.join(", ").replaceAll("-", "−");

const differences: CheckFamily = {
  name: "Differences between colours",
  source: "G. Sharma, W. Wu, E. N. Dalal, Color Research & Application 30(1), 2005, 21–30, table 1",
  how: "looked up",
  unit: "ΔE00",
  checks: pairs.map(({ lab1, lab2, value }) => ({
    what: `${written(lab1)} and ${written(lab2)}`,
    tolerance: 0.0001,
    deviation: deltaE00(labOf(lab1), labOf(lab2)) - value,
  })),
};

export const colourChecks: readonly CheckFamily[] = [differences];
