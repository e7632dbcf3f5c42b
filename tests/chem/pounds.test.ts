import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gramsOfOunces, ouncesColumn, ouncesOf, poundsAndOunces } from "../../src/chem/pounds.ts";

/** Weights on a scale of a tenth of a gram, up to 100 kg. */
const tenths = fc.integer({ min: 1, max: 1_000_000 }).map((steps) => new Decimal(steps).div(10));

describe("pounds and ounces beside grams", () => {
  // NIST, Special Publication 811, 2008, appendix B.9: 1 lb = 0.45359237 kg, 1 oz = a sixteenth of it.
  it.each([
    ["453.59237", "16"],
    ["28.349523125", "1"],
    ["500", "17.637"],
    ["0.1", "0.004"],
  ])("has %s g as %s oz", (grams, ounces) => {
    expect(ouncesOf(new Decimal(grams)).toFixed()).toBe(ounces);
  });

  it("tells whole pounds from the ounces left", () => {
    const { pounds, ounces } = poundsAndOunces(new Decimal("17.637"));
    expect([pounds.toFixed(), ounces.toFixed()]).toEqual(["1", "1.637"]);
  });

  it("comes back to the same tenth of a gram", () => {
    fc.assert(
      fc.property(tenths, (grams) => {
        const back = gramsOfOunces(ouncesOf(grams));
        expect(back.toDecimalPlaces(1).toFixed()).toBe(grams.toFixed());
      }),
    );
  });

  it("adds up as printed, to every subtotal, and each figure comes back to its tenth", () => {
    fc.assert(
      fc.property(fc.array(tenths, { minLength: 1, maxLength: 24 }), (weights) => {
        const column = ouncesColumn(weights);
        let printed = new Decimal(0);
        let weighed = new Decimal(0);
        column.forEach((ounces, place) => {
          printed = printed.plus(ounces);
          weighed = weighed.plus(weights[place] ?? 0);
          expect(printed.toFixed()).toBe(ouncesOf(weighed).toFixed());
          const off = gramsOfOunces(ounces).minus(weights[place] ?? 0);
          expect(off.abs().lt("0.05")).toBe(true);
        });
      }),
    );
  });
});
