import { describe, expect, it } from "vitest";
import type { Oxide } from "../../src/chem/oxides.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";
import minerals from "../reference/minerals.json" with { type: "json" };
import { analysisOf } from "../reference/published.ts";

type Mineral = {
  name: string;
  formula: string;
  molar_mass: number;
  value: Record<string, number>;
  loi: number;
  tolerance: number;
};
const isMineral = (record: object): record is Mineral => "formula" in record && "loi" in record;
const known = (minerals as object[]).filter(isMineral);

const lossOf = (formula: string) => analysisOf(formula).lossOnIgnition?.percent.toNumber();

describe("the analysis of a formula", () => {
  // Computed apart from the IUPAC 2021 abridged weights; those that print differs are noted there.
  it.each(known)("gives $name its oxides and its loss", (mineral) => {
    const { molarMass, analysis } = read(mineral.formula);
    expect(molarMass.toNumber()).toBeCloseTo(mineral.molar_mass, 3);
    for (const [oxide, percent] of Object.entries(mineral.value)) {
      const worked = analysis.oxides[oxide as Oxide]?.percent.toNumber() ?? 0;
      expect(Math.abs(worked - percent)).toBeLessThanOrEqual(mineral.tolerance);
    }
    expect(Object.keys(analysis.oxides).sort()).toEqual(Object.keys(mineral.value).sort());
    expect(Math.abs((lossOf(mineral.formula) ?? 0) - mineral.loi)).toBeLessThanOrEqual(0.01);
  });

  it("knows some sixty of them", () => expect(known.length).toBeGreaterThan(50));

  // Arithmetic on the IUPAC 2021 abridged weights, done by hand.
  it.each([
    ["Fe3O4", -3.46, 0.005],
    ["FeO", -11.1, 0.05],
    ["Co3O4", 6.64, 0.005],
    ["CaF2", 28.2, 0.05],
  ])("takes the loss of %s as %d", (formula, loss, tolerance) => {
    expect(Math.abs((lossOf(formula) ?? 0) - loss)).toBeLessThanOrEqual(tolerance);
  });

  it("adds up to 100 with its loss", () => {
    const { oxides, lossOnIgnition } = analysisOf("0.3Na2O.0.7CaO.0.5B2O3.2.5SiO2");
    const sum = Object.values(oxides).reduce((total, { percent }) => total + Number(percent), 0);
    expect(sum + Number(lossOnIgnition?.percent)).toBeCloseTo(100, 10);
  });

  it("names what it gives off as fumes", () => {
    expect(analysisOf("CaF2").givesOff).toEqual(["F"]);
    expect(analysisOf("BaSO4").givesOff).toEqual(["S"]);
    expect(analysisOf("CaCO3").givesOff).toBeUndefined();
  });

  it("is ideal only where it was said to be", () => {
    expect(analysisOf("SiO2", true).ideal).toBe(true);
    expect(analysisOf("SiO2", false).ideal).toBeUndefined();
  });

  it.each([
    ["H2O", 0, /nothing is left/],
    ["SiO2·AuCl3", 5, /No oxide of Au/],
    ["SiO2·", 5, /stops here/],
  ])("cannot read %s", (text, at, says) => {
    expect(analysisOfFormula(text)).toMatchObject({ kind: "unreadable", at });
    expect(analysisOfFormula(text)).toHaveProperty("says", expect.stringMatching(says));
  });
});

function read(formula: string) {
  const worked = analysisOfFormula(formula);
  if (worked.kind !== "analysis") throw new Error(worked.says);
  return worked;
}
