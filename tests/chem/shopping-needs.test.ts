import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { billsOf } from "../../src/chem/buying.ts";
import { needRows, needsOfBatch } from "../../src/chem/shopping-needs.ts";

const decimal = (digits: string) => new Decimal(digits);

describe("what a batch needs", () => {
  const thirds = ["quartz", "kaolin", "whiting"].map((slug) => ({
    ...{ slug, part: "base" as const, amount: decimal("1") },
  }));

  it("is what its sheet says, to the step of the scale, and adds up to the base", () => {
    const scaleGrams = decimal("1");
    const needs = needsOfBatch(thirds, { grams: decimal("100"), scaleGrams });
    expect([...needs.values()].map(String)).toEqual(["34", "33", "33"]);
    const finer = needsOfBatch(thirds, { grams: decimal("100.5"), scaleGrams: decimal("1") });
    expect(Decimal.sum(...finer.values()).toFixed()).toBe("100.5");
  });

  it("puts a powder that stands in both parts together", () => {
    const both = [...thirds, { slug: "quartz", part: "addition" as const, amount: decimal("0.3") }];
    const needs = needsOfBatch(both, { grams: decimal("300"), scaleGrams: decimal("1") });
    expect(needs.get("quartz")?.toFixed()).toBe("130");
  });

  it("is missing less what may be used, and less than nothing there is nothing", () => {
    const needs = [new Map([["quartz", decimal("500")]]), new Map([["kaolin", decimal("90")]])];
    const there = new Map([
      ["quartz", decimal("200.5")],
      ["kaolin", decimal("-10")],
    ]);
    const rows = needRows(needs, there).map(({ slug, missing }) => `${slug} ${missing}`);
    expect(rows).toEqual(["kaolin 90", "quartz 299.5"]);
  });
});

describe("a supplier's bill", () => {
  // By pencil: 3 × 12.50 is 37.50, and with 6.95 to send 44.45, 12.50 short of 50.00.
  it("has its carriage until what is bought comes to where that ends", () => {
    const pack = { supplier: 0, material: 0, grams: decimal("1000"), price: decimal("12.50") };
    const terms = { carriage: decimal("6.95"), freeFrom: decimal("50") };
    const bill = (count: number) => billsOf({ packs: [pack], suppliers: [terms] }, [count]);
    expect(bill(3).total.toFixed(2)).toBe("44.45");
    expect(bill(3).bills[0]?.toFree?.toFixed(2)).toBe("12.50");
    expect([bill(4).total.toFixed(2), bill(4).bills[0]?.toFree]).toEqual(["50.00", null]);
    expect(bill(0).bills).toEqual([]);
  });
});
