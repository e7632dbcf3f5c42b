import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  additionsTotal,
  baseIs100,
  baseTotal,
  bringBaseTo100,
  percentOfBase,
  type WeighedLine,
} from "../../src/chem/lines.ts";

const base = (amount: Decimal.Value): WeighedLine => ({
  part: "base",
  amount: new Decimal(amount),
});
const addition = (amount: Decimal.Value): WeighedLine => ({
  part: "addition",
  amount: new Decimal(amount),
});
const written = (lines: readonly WeighedLine[] | null) =>
  lines?.map(({ amount }) => amount.toString());

describe("base and additions", () => {
  it("are totalled apart, exactly", () => {
    const lines = [base("0.1"), addition(5), base("0.2")];
    expect(baseTotal(lines).toString()).toBe("0.3");
    expect(additionsTotal(lines).toString()).toBe("5");
  });

  // By hand: 3 on a base of 150.
  it("measures additions in percent of the base", () => {
    const lines = [base(150), addition(3)];
    expect(percentOfBase(addition(3), lines)?.toString()).toBe("2");
    expect(percentOfBase(addition(3), [addition(3)])).toBeNull();
  });

  it.each([
    ["99.95", true],
    ["100.05", true],
    ["99.949", false],
    ["100.051", false],
  ])("calls a base of %s a hundred: %s", (amount, is) =>
    expect(baseIs100([base(amount), addition(10)])).toBe(is),
  );
});

describe("bringing the base to 100", () => {
  // By hand: 41, 20, 20 and 2 times 100/81 are 50.617, 24.691, 24.691 and 2.469.
  it("scales additions with it", () => {
    expect(written(bringBaseTo100([base(41), base(20), addition(2), base(20)]))).toEqual([
      "50.62",
      "24.69",
      "2.47",
      "24.69",
    ]);
  });

  it("takes a third decimal where two would move a line too far", () => {
    expect(written(bringBaseTo100([base(400), base(37), addition("0.25")]))).toEqual([
      "91.533",
      "8.467",
      "0.057",
    ]);
  });

  it("has no answer for a base of 0", () =>
    expect(bringBaseTo100([base(0), addition(1)])).toBeNull());

  it("adds up to exactly 100, whatever the base", () => {
    const amounts = fc.array(fc.integer({ min: 0, max: 1_000_000 }), {
      minLength: 1,
      maxLength: 64,
    });
    fc.assert(
      fc.property(amounts, (all) => {
        const lines = all.map((amount) => base(new Decimal(amount).div(1000)));
        const brought = bringBaseTo100(lines);
        if (brought) expect(baseTotal(brought).toString()).toBe("100");
        else expect(all.every((amount) => amount === 0)).toBe(true);
      }),
    );
  });

  it("leaves a base of 100 as it is", () => {
    expect(written(bringBaseTo100([base("62.5"), base("37.5"), addition("2.25")]))).toEqual([
      "62.5",
      "37.5",
      "2.25",
    ]);
  });
});
