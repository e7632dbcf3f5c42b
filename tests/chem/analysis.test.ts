import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { type Analysis, faultsOfAnalysis, powderOf } from "../../src/chem/analysis.ts";
import { toFloat } from "../../src/chem/float.ts";
import { analysisOf } from "../reference/published.ts";
import { analysed, shelf } from "../reference/shelf.ts";

const paths = (analysis: Analysis) => faultsOfAnalysis(analysis).map(({ path }) => path);

describe("faults of an analysis", () => {
  it.each(Object.entries(shelf))("finds none in %s", (_name, analysis) => {
    expect(faultsOfAnalysis(analysis)).toEqual([]);
  });

  // Oxygen is taken up on firing, so the oxides pass 100 and the loss is negative.
  it.each(["Fe3O4", "FeO", "SiC", "CaF2"])("takes %s as it is", (formula) => {
    expect(faultsOfAnalysis(analysisOf(formula))).toEqual([]);
  });

  it.each<[string, Analysis, string[]]>([
    ["nothing listed", analysed({}), ["analysis"]],
    ["a negative percentage", analysed({ SiO2: -1 }), ["analysis.SiO2.percent"]],
    ["a percentage that is no number", analysed({ SiO2: Number.NaN }), ["analysis.SiO2.percent"]],
    [
      "an endless percentage",
      analysed({ SiO2: Number.POSITIVE_INFINITY }),
      ["analysis.SiO2.percent"],
    ],
    ["less than can be counted", analysed({ SiO2: 1e-200 }), ["analysis.SiO2.percent"]],
    ["102.1 with its loss", analysed({ SiO2: 60, Al2O3: 30 }, 12.1), ["analysis"]],
    ["102.1 without a loss", analysed({ SiO2: 102.1 }), ["analysis"]],
    ["a loss of more than all", analysed({ SiO2: 1 }, 100.5), ["lossOnIgnition.percent"]],
    ["calcined without a loss", analysed({ SiO2: 90 }, undefined, "calcined"), ["lossOnIgnition"]],
    ["calcined over 102", analysed({ SiO2: 103 }, 50, "calcined"), ["analysis"]],
  ])("names the place of %s", (_what, analysis, wanted) => expect(paths(analysis)).toEqual(wanted));

  it("takes 102 with its loss, and a calcined analysis of 102", () => {
    expect(paths(analysed({ SiO2: 60, Al2O3: 30 }, 12))).toEqual([]);
    expect(paths(analysed({ SiO2: 102 }, 10, "calcined"))).toEqual([]);
  });

  it("refuses a ± below 0", () => {
    const oxides = { SiO2: { percent: new Decimal(50), plusMinus: new Decimal(-1) } };
    expect(paths({ basis: "asReceived", oxides })).toEqual(["analysis.SiO2.plusMinus"]);
  });
});

describe("a powder as weighed", () => {
  it("leaves open what an analysis with its loss leaves open", () => {
    const powder = powderOf(analysed({ SiO2: 55, Al2O3: 30 }, 10));
    expect(powder).toMatchObject({ loss: 10, lossIs: "given", unaccounted: 5 });
  });

  it("takes a missing loss as the rest, or as 0 where the oxides pass 100", () => {
    expect(powderOf(analysed({ SiO2: 55, Al2O3: 30 }))).toMatchObject({
      loss: 15,
      lossIs: "rest",
      unaccounted: 0,
    });
    expect(powderOf(analysed({ SiO2: 101 }))).toMatchObject({
      loss: 0,
      lossIs: "none",
      unaccounted: -1,
    });
  });
});

describe("a decimal as float64", () => {
  it.each([
    "0",
    "-0.1",
    "55.1",
    "99.123456789012",
    "103.455044896796",
    "1e-7",
    "123456789.123456789123456789",
    "1e30",
    "1e-30",
    "0.000001",
    "1000000",
    "-3.455044896796",
  ])("is that of its text: %s", (text) => expect(toFloat(new Decimal(text))).toBe(Number(text)));

  it("is that of its text for ten thousand of all sizes", () => {
    for (let at = 1; at <= 10_000; at++) {
      const decimal = new Decimal(at)
        .sqrt()
        .toSignificantDigits((at % 20) + 1)
        .times(new Decimal(10).pow((at % 37) - 18));
      expect(toFloat(decimal)).toBe(Number(decimal.toString()));
    }
  });
});
