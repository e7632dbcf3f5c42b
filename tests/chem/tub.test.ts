import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exactGrams, weightUnits } from "../../src/chem/batch-amounts.ts";
import { tubOf, tubSteps } from "../../src/chem/tub.ts";

const line = (amount: string, part: "base" | "addition" = "base") => ({
  part,
  amount: new Decimal(amount),
});
const three = [line("1"), line("1"), line("1"), line("0.05", "addition")];

describe("a tub", () => {
  it("of three equal powders in pounds adds up to the pounds", () => {
    const tub = tubOf(three, { base: new Decimal(10), unit: "lb" });
    if (tub.kind !== "tub") throw new Error("refused");
    // 0.05 on a base of 3 is 1.6667 %, of 10 lb 0.167 lb.
    expect(tub.lines.map(({ weight }) => weight.toFixed())).toEqual([
      "3.334",
      "3.333",
      "3.333",
      "0.167",
    ]);
    expect([tub.base.toFixed(), tub.total.toFixed()]).toEqual(["10", "10.167"]);
    // 1 lb = 0.45359237 kg exactly: A. Thompson, B. Taylor, "Guide for the Use of the International
    // System of Units", NIST Special Publication 811, 2008, appendix B.8.
    expect(exactGrams(tub.base, "lb").toFixed()).toBe("4535.9237");
  });

  it.each([
    ["0", "kg"],
    ["-1", "g"],
    ["1000.001", "kg"],
    ["2204.623", "lb"],
    ["0.0005", "lb"],
    ["2.55", "g"],
  ] as const)("of %s %s is refused at its field", (base, unit) => {
    const tub = tubOf(three, { base: new Decimal(base), unit });
    expect(tub.kind === "refused" && tub.faults.map(({ path }) => path)).toEqual(["tub"]);
  });

  it("adds up in every unit, whatever the recipe", () => {
    const amounts = fc.array(fc.integer({ min: 1, max: 99_999 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(
        amounts,
        fc.array(fc.integer({ min: 1, max: 9999 }), { maxLength: 4 }),
        fc.constantFrom(...weightUnits),
        fc.integer({ min: 1, max: 900_000 }),
        (bases, tops, unit, steps) => {
          const lines = [
            ...bases.map((amount) => line(String(amount))),
            ...tops.map((amount) => line(String(amount), "addition")),
          ];
          const base = tubSteps[unit].times(steps);
          const tub = tubOf(lines, { base, unit });
          if (tub.kind !== "tub") throw new Error(JSON.stringify(tub.faults));
          const sum = (part: "base" | "addition") =>
            tub.lines
              .filter((each) => each.line.part === part)
              .reduce((all, { weight }) => all.plus(weight), new Decimal(0));
          expect(sum("base").toFixed()).toBe(base.toFixed());
          expect(sum("base").plus(sum("addition")).toFixed()).toBe(tub.total.toFixed());
        },
      ),
    );
  });
});
