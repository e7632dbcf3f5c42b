import { expect, it } from "vitest";
import { type WitnessReading, witnessReads } from "../../src/chem/witness.ts";

it.each<[number, WitnessReading]>([
  [0, "not-reached"],
  [59, "not-reached"],
  [60, "reached"],
  [90, "reached"],
  [120, "reached"],
  [121, "past"],
  [180, "past"],
])("reads a cone that bent by %i° as %s", (bendDegrees, reading) => {
  expect(witnessReads(bendDegrees)).toBe(reading);
});

it("never reads a cone that bent further as less", () => {
  const order: WitnessReading[] = ["not-reached", "reached", "past"];
  const places = Array.from({ length: 181 }, (_, degrees) => order.indexOf(witnessReads(degrees)));
  expect(places).toEqual([...places].sort((a, b) => a - b));
});
