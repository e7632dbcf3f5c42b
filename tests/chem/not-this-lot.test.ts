import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { standingIn } from "../../src/chem/not-this-lot.ts";

// Common practice, no source: 3 % of the oxide is assumed, at least 0.1, and it is doubled here.
describe("an analysis that stands in for a lot", () => {
  const stands = standingIn({
    basis: "asReceived",
    oxides: {
      SiO2: { percent: new Decimal("65.1"), plusMinus: new Decimal("0.8") },
      Al2O3: { percent: new Decimal("29.3") },
      K2O: { percent: new Decimal("2.1") },
    },
    lossOnIgnition: { percent: new Decimal("3.5"), plusMinus: new Decimal("0.25") },
  });

  it("has the same figures with twice their ±, assumed ones too", () => {
    const { SiO2, Al2O3, K2O } = stands.oxides;
    expect([SiO2, Al2O3, K2O].map((figure) => figure?.percent.toFixed())).toEqual([
      "65.1",
      "29.3",
      "2.1",
    ]);
    expect([SiO2, Al2O3, K2O].map((figure) => figure?.plusMinus?.toNumber())).toEqual([
      1.6, 1.758, 0.2,
    ]);
    expect(stands.lossOnIgnition?.plusMinus?.toFixed()).toBe("0.5");
    expect(stands.basis).toBe("asReceived");
  });

  it("leaves a textbook formula exact", () => {
    const exact = standingIn({
      basis: "asReceived",
      oxides: { SiO2: { percent: new Decimal(100) } },
      ideal: true,
    });
    expect(exact.oxides.SiO2?.plusMinus?.toFixed()).toBe("0");
  });
});
