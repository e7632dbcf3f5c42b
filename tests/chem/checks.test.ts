import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checksFile, checksPage, families } from "../reference/checks.ts";

describe("the page of checks", () => {
  it("is what the chemistry gives today", () => {
    const page = readFileSync(checksFile, "utf8");
    expect(page, "run: node --import tsx tests/reference/checks.ts").toBe(checksPage());
  });

  it.each(families)("holds every figure to its tolerance: $name", ({ checks }) => {
    expect(checks.length).toBeGreaterThan(1);
    const off = checks.filter(
      ({ deviation, tolerance }) => !(Math.abs(deviation) <= tolerance + 1e-12),
    );
    expect(off).toEqual([]);
  });

  it("leaves no kind out", () => {
    const counts = Object.fromEntries(families.map(({ name, checks }) => [name, checks.length]));
    expect(counts).toEqual({
      "Atomic weights": 45,
      "Molar masses of the oxides": 35,
      "Composition of minerals and chemicals": 57,
      "Losses on ignition": 57,
      "Seger's cones from their batches": 15,
      "Worked glazes": 9,
      "The same glazes in exact fractions": 25,
      "Sums of thermal expansion": 3,
      "Factors of thermal expansion seen in print": 4,
      "End points of self-supporting cones": 78,
      "End points of large cones, older table": 36,
      "End points of Seger cones": 58,
      "Dry content of a slurry": 4,
      "Degrees Twaddell": 4,
      "Degrees Baumé, modulus 145": 2,
      "Limits for lead and cadmium out of pottery": 24,
      "Differences between colours": 34,
    });
  });
});
