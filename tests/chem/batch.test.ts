import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { batchSheet } from "../../src/chem/batch.ts";
import type { Part, WeighedLine } from "../../src/chem/lines.ts";

const line = (amount: Decimal.Value, part: Part = "base"): WeighedLine => ({
  part,
  amount: new Decimal(amount),
});

const sheetOf = (lines: WeighedLine[], grams: Decimal.Value, scaleGrams: Decimal.Value) => {
  const sheet = batchSheet({
    lines,
    grams: new Decimal(grams),
    scaleGrams: new Decimal(scaleGrams),
  });
  if (sheet.kind === "refused") throw new Error(JSON.stringify(sheet.faults));
  return sheet;
};
const grams = (lines: WeighedLine[], base: Decimal.Value, scale: Decimal.Value) =>
  sheetOf(lines, base, scale).lines.map((each) => each.grams.toString());

// Each sheet is done by hand from the rule: largest remainder for the base, ties to the earlier
// line; additions to the nearest step, halves up.
describe("a batch sheet", () => {
  it("gives what is left to the largest remainders, ties to the earlier line", () => {
    expect(grams([line(1), line(1), line(1)], 100, 1)).toEqual(["34", "33", "33"]);
    expect(grams([line(10), line(20), line(70)], 12, 1)).toEqual(["1", "3", "8"]);
    expect(grams([line(15), line(25), line(60)], 10, 1)).toEqual(["2", "2", "6"]);
  });

  it("rounds each addition on its own, halves up", () => {
    expect(grams([line(100), line("2.5", "addition"), line("2.4", "addition")], 100, 1)).toEqual([
      "100",
      "3",
      "2",
    ]);
    expect(grams([line(3), line("0.5", "addition")], 3, 1)).toEqual(["3", "1"]);
  });

  it("weighs in steps of the scale, and runs along to the total", () => {
    const sheet = sheetOf([line(60), line(2, "addition"), line(40)], "1000.5", "0.5");
    expect(sheet.lines.map((each) => each.grams.toString())).toEqual(["600.5", "20", "400"]);
    expect(sheet.lines.map((each) => each.runningGrams.toString())).toEqual([
      "600.5",
      "620.5",
      "1020.5",
    ]);
    expect(sheet.totalGrams.toString()).toBe("1020.5");
    expect(sheet.baseGrams.toString()).toBe("1000.5");
  });

  // By hand: 34 for 33⅓ is off by exactly 2 %, which is not more than 2 %.
  it("takes a weight that is off by exactly 2 % for fine enough", () => {
    expect(sheetOf([line(1), line(1), line(1)], 100, 1).coarse).toEqual([]);
  });

  it("says which lines the scale is too coarse for, and from what batch it is not", () => {
    const sheet = sheetOf([line(97), line(3), line("0.2", "addition")], 100, 1);
    expect(sheet.coarse).toEqual([
      { line: 2, percent: new Decimal(100), smallestGrams: new Decimal(12500) },
    ]);
    const moved = sheetOf([line("96.5"), line("3.5")], 100, 1).coarse;
    expect(moved.map((each) => each.line)).toEqual([1]);
    expect(moved[0]?.percent.toFixed(2)).toBe("14.29");
    expect(sheetOf([line("96.5"), line("3.5")], moved[0]?.smallestGrams ?? 0, 1).coarse).toEqual(
      [],
    );
  });

  it("adds up to the batch, whatever the recipe, no base line off by a step", () => {
    const amounts = fc.array(fc.integer({ min: 1, max: 100_000 }), { minLength: 1, maxLength: 64 });
    const scales = fc.constantFrom("0.01", "0.1", "0.5", "1", "5");
    fc.assert(
      fc.property(amounts, scales, fc.integer({ min: 1, max: 50_000 }), (all, scale, steps) => {
        const lines = all.map((amount) => line(new Decimal(amount).div(1000)));
        const batch = new Decimal(scale).times(steps);
        const sheet = sheetOf(lines, batch, scale);
        const total = all.reduce((sum, amount) => sum + amount, 0);
        expect(sheet.totalGrams.eq(batch)).toBe(true);
        for (const [at, { grams: weighed }] of sheet.lines.entries()) {
          expect(weighed.mod(scale).isZero()).toBe(true);
          const exact = batch.times(all[at] ?? 0).div(total);
          expect(weighed.minus(exact).abs().lt(new Decimal(scale).times("1.000001"))).toBe(true);
        }
      }),
    );
  });

  it.each([
    ["a weight between steps", [line(1)], "100.5", "1", ["grams"]],
    ["no weight", [line(1)], "0", "1", ["grams"]],
    ["too much", [line(1)], "1000001", "1", ["grams"]],
    ["no step", [line(1)], "100", "0", ["scaleGrams"]],
    ["what is no number", [line(1)], "NaN", "NaN", ["scaleGrams", "grams"]],
    ["an empty base", [line(0), line(1, "addition")], "100", "1", ["lines"]],
    ["a negative amount", [line(1), line(-1)], "100", "1", ["lines.1.amount"]],
  ])("refuses %s", (_what, lines, weight, scale, paths) => {
    const sheet = batchSheet({ lines, grams: new Decimal(weight), scaleGrams: new Decimal(scale) });
    expect(sheet.kind === "refused" && sheet.faults.map(({ path }) => path)).toEqual(paths);
  });
});
