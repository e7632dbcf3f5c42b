import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { batchSheet } from "../../src/chem/batch.ts";
import { baseThatUsesUp, gramsOf, inUnit } from "../../src/chem/batch-amounts.ts";

const decimal = (text: string | number) => new Decimal(text);

describe("weights in other units", () => {
  // 1 lb = 0.45359237 kg exactly: A. Thompson, B. Taylor, "Guide for the Use of the International
  // System of Units", NIST Special Publication 811, 2008, appendix B.8.
  it.each([
    ["10", "lb", "0.1", "4535.9"],
    ["1", "lb", "0.0001", "453.5924"],
    ["5", "kg", "1", "5000"],
    ["0.25", "g", "0.1", "0.3"],
  ] as const)("reads %s %s on a scale of %s g as %s g", (weight, unit, scale, grams) => {
    expect(gramsOf(decimal(weight), unit, decimal(scale)).toFixed()).toBe(grams);
  });

  it.each([
    ["1000", "lb", "2.205"],
    ["1000", "kg", "1"],
    ["0.1", "g", "0.1"],
  ] as const)("says %s g in %s as %s", (grams, unit, said) => {
    expect(inUnit(decimal(grams), unit).toFixed()).toBe(said);
  });
});

type Line = { key: string; part: "base" | "addition"; amount: Decimal };

const linesOf = (amounts: readonly (readonly [string, "base" | "addition", number])[]): Line[] =>
  amounts.map(([key, part, amount]) => ({ key, part, amount: decimal(amount) }));

describe("using up what there is of one powder", () => {
  const use = (lines: Line[], key: string, have: string, scale: string) =>
    baseThatUsesUp({
      lines,
      isIt: (line) => line.key === key,
      have: decimal(have),
      scaleGrams: decimal(scale),
    });

  it("asks for a base of 4150 g where 830 g are there of a fifth of it", () => {
    const lines = linesOf([
      ["chalk", "base", 20],
      ["spar", "base", 80],
    ]);
    expect(use(lines, "chalk", "830", "0.1").toFixed()).toBe("4150");
  });

  it("counts base and additions of the same powder together", () => {
    const lines = linesOf([
      ["tin", "base", 90],
      ["sand", "base", 10],
      ["tin", "addition", 10],
    ]);
    expect(use(lines, "tin", "500", "1").toFixed()).toBe("500");
  });

  it("finds nothing to weigh of a powder that is not in it, or of less than a step", () => {
    const lines = linesOf([["sand", "base", 100]]);
    expect(use(lines, "chalk", "500", "1").toFixed()).toBe("0");
    expect(use(lines, "sand", "0.4", "1").toFixed()).toBe("0");
  });

  it("never asks for more than there is, and leaves less than a few steps' worth", () => {
    const line = fc.tuple(
      fc.constantFrom("a", "b", "c"),
      fc.constantFrom("base" as const, "addition" as const),
      fc.integer({ min: 1, max: 500 }),
    );
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 1, max: 20_000 }),
        fc.constantFrom("0.1", "0.5", "1"),
        (others, have, scale) => {
          const lines = linesOf([["a", "base", 100], ...others]);
          const grams = use(lines, "a", String(have), scale);
          if (grams.isZero() || grams.gt(1_000_000)) return;
          const sheet = batchSheet({ lines, grams, scaleGrams: decimal(scale) });
          if (sheet.kind === "refused") throw new Error(JSON.stringify(sheet.faults));
          const taken = sheet.lines
            .filter(({ line: { key } }) => key === "a")
            .reduce((sum, each) => sum.plus(each.grams), decimal(0));
          expect(taken.lte(have)).toBe(true);
          // Each line may be a step off, and so may the base.
          const slack = decimal(scale).times(2 * sheet.lines.length + 2);
          expect(taken.plus(slack).gte(have)).toBe(true);
        },
      ),
      { numRuns: 200 },
    );
  });
});
