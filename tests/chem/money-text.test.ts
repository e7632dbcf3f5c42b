import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { costOfDry, dryInLitre, sharesOf } from "../../src/chem/dry-cost.ts";
import { columnOf, moneyText } from "../../src/chem/money-text.ts";

const decimal = (digits: string) => new Decimal(digits);
const amount = fc.integer({ min: 0, max: 10_000_000 }).map((n) => decimal(String(n)).div(1e5));

describe("printed money", () => {
  it.each([
    ["12.5", "12.50"],
    ["0.1234", "0.1234"],
    ["0", "0.00"],
  ])("has two decimals, or all that it has: %s is %s", (given, printed) => {
    expect(moneyText(decimal(given))).toBe(printed);
  });

  it("adds up to the rounded total in every column, and moves no amount by two", () => {
    fc.assert(
      fc.property(fc.array(amount, { minLength: 1, maxLength: 12 }), (amounts) => {
        const column = columnOf(amounts, 2);
        const exact = Decimal.sum(0, ...amounts);
        expect(Decimal.sum(0, ...column.amounts).toFixed(2)).toBe(column.total.toFixed(2));
        expect(column.total.toFixed(2)).toBe(exact.toFixed(2));
        // A whole of less than a coin is rounded to one, or to none.
        if (exact.gte(1))
          column.amounts.forEach((printed, place) => {
            expect(
              printed
                .minus(amounts[place] ?? 0)
                .abs()
                .lt("0.02"),
            ).toBe(true);
          });
      }),
    );
  });

  it("is shared out to the last coin, whoever pays how much", () => {
    const parts = fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(amount, parts, (whole, by) => {
        const sum = Decimal.sum(0, ...sharesOf(whole, by));
        expect(sum.toFixed(2)).toBe(whole.toFixed(2));
      }),
    );
    expect(sharesOf(decimal("10"), [1, 1, 1]).map(String)).toEqual(["3.34", "3.33", "3.33"]);
  });
});

describe("what dry powders cost", () => {
  const pack = (packPrice: string) => ({
    ...{ packGrams: decimal("1000"), packPrice: decimal(packPrice), currency: "GBP" },
  });

  // By pencil: 0.6 × 1.26 and 0.4 × 1.08.
  it("is the sum of them by weight, and the least where one has no price", () => {
    const quartz = { name: "Quartz", grams: decimal("600"), price: pack("1.26") };
    const kaolin = { name: "Kaolin", grams: decimal("400"), price: pack("1.08") };
    expect(costOfDry([quartz, kaolin])?.perKilogram.toFixed()).toBe("1.188");
    const unknown = costOfDry([quartz, { ...kaolin, price: null }]);
    expect([unknown?.perKilogram.toFixed(), unknown?.without]).toEqual(["0.756", ["Kaolin"]]);
    expect(costOfDry([])).toBeNull();
  });

  it("counts the dry powder in a litre as a slurry's weight tells it", () => {
    expect(dryInLitre(decimal("1.45"), decimal("2.65")).toFixed(1)).toBe("722.7");
    expect(dryInLitre(decimal("1.8"), decimal("2.6")).toFixed()).toBe("1300");
  });
});
