import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { toCelsius } from "../../src/chem/cone-tables.ts";
import { degreesIn, sentenceIn, spanIn } from "../../src/chem/degrees.ts";

const heat = fc.integer({ min: -50, max: 1600 });

describe("degrees in a reader's unit", () => {
  // NIST, Special Publication 811, 2008, appendix B.8: t/°F = 1.8 t/°C + 32.
  it.each([
    [0, 32],
    [100, 212],
    [1222, 2231.6],
    [-40, -40],
  ])("has %d °C as %d °F", (celsius, fahrenheit) => {
    expect(degreesIn(celsius, "F")).toBeCloseTo(fahrenheit, 10);
    expect(degreesIn(celsius, "C")).toBe(celsius);
  });

  it("takes a whole degree there and back to within half a degree Fahrenheit", () => {
    fc.assert(
      fc.property(heat, (celsius) => {
        const printed = Math.round(degreesIn(celsius, "F"));
        expect(Math.abs(toCelsius(printed) - celsius)).toBeLessThanOrEqual(0.5 / 1.8 + 1e-9);
        expect(Math.round(toCelsius(printed))).toBe(celsius);
      }),
    );
  });

  it("has a difference without the zeros of the scales", () => {
    fc.assert(
      fc.property(heat, heat, (one, other) => {
        const apart = degreesIn(one, "F") - degreesIn(other, "F");
        expect(spanIn(one - other, "F")).toBeCloseTo(apart, 8);
      }),
    );
  });

  // By hand: 1222 × 1.8 + 32 = 2231.6; 60 × 1.8 = 108; 10 × 1.8 = 18; 99 × 1.8 = 178.2.
  it.each([
    [
      "cone 6 (1222 °C at 60 °C/h, self-supporting)",
      "cone 6 (2232 °F at 108 °F/h, self-supporting)",
    ],
    ["heated at 60 °C an hour", "heated at 108 °F an hour"],
    ["With ± 10 °C, cone 5", "With ± 18 °F, cone 5"],
    ["99 °C apart", "178 °F apart"],
    ["no temperature, 20 % of it", "no temperature, 20 % of it"],
  ])("says “%s” as “%s”", (celsius, fahrenheit) => {
    expect(sentenceIn(celsius, "F")).toBe(fahrenheit);
    expect(sentenceIn(celsius, "C")).toBe(celsius);
  });
});
