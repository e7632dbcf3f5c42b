import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { costOf, type Price, type PricedLine, pricePerGram } from "../../src/chem/cost.ts";

const price = (packPrice: string, packGrams: string, currency = "GBP"): Price => ({
  packPrice: new Decimal(packPrice),
  packGrams: new Decimal(packGrams),
  currency,
});

const line = (
  name: string,
  amount: string,
  of: Price | null,
  part: PricedLine["part"] = "base",
): PricedLine => ({ name, part, amount: new Decimal(amount), price: of });

const feldspar = line("Potash feldspar", "60", price("30", "25000"));
const whiting = line("Whiting", "40", price("9", "10000"));
const iron = line("Red iron oxide", "2", price("12", "1000"), "addition");

describe("what a glaze costs", () => {
  it("is the sum of the worked number", () => {
    // By pencil: 60 × 30/25000 + 40 × 9/10000 + 2 × 12/1000.
    expect(costOf([feldspar, whiting, iron])?.total).toEqual({
      amount: new Decimal("0.132"),
      currency: "GBP",
    });
    expect(pricePerGram(price("30", "25000")).toFixed()).toBe("0.0012");
  });

  it("is of a base of so many grams with the additions on top", () => {
    const total = costOf([feldspar, whiting, iron], new Decimal(5000))?.total;
    expect(total?.amount.toFixed()).toBe("6.6");
  });

  it("has no total where a line has no price, and names it", () => {
    const cost = costOf([feldspar, { ...whiting, price: null }, iron]);
    expect(cost?.total).toBeNull();
    expect(cost?.without).toEqual(["Whiting"]);
    expect(cost?.known).toEqual([{ amount: new Decimal("0.096"), currency: "GBP" }]);
  });

  it("never adds up two currencies", () => {
    const cost = costOf([feldspar, { ...whiting, price: price("9", "10000", "EUR") }]);
    expect(cost?.total).toBeNull();
    expect(cost?.without).toEqual([]);
    expect(cost?.known.map(({ amount, currency }) => `${amount} ${currency}`)).toEqual([
      "0.036 EUR",
      "0.072 GBP",
    ]);
  });

  it("is not known of a base of nothing", () => {
    expect(costOf([iron])).toBeNull();
  });

  it("does not change with the parts that a recipe is written in", () => {
    const lines = fc.array(
      fc.record({
        amount: fc.integer({ min: 1, max: 100000 }),
        pack: fc.integer({ min: 1, max: 500 }),
      }),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(lines, fc.integer({ min: 2, max: 9 }), (drawn, times) => {
        const written = (by: number) =>
          drawn.map(({ amount, pack }, place) =>
            line(`Powder ${place}`, String(amount * by), price(String(pack), "25000")),
          );
        const [once, more] = [costOf(written(1)), costOf(written(times))];
        const apart = once!.total!.amount.minus(more!.total!.amount).abs();
        expect(apart.lt("1e-12")).toBe(true);
      }),
    );
  });
});
