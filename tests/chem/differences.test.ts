import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../src/chem/analysis.ts";
import { type Chemistry, type ChemistryLine, workOut } from "../../src/chem/chemistry.ts";
import { differencesBetween, figureDifferencesBetween } from "../../src/chem/differences.ts";
import { movesBetween } from "../../src/chem/moves.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";

const analysed = (formula: string): Analysis => {
  const worked = analysisOfFormula(formula);
  if (worked.kind !== "analysis") throw new Error(worked.says);
  return worked.analysis;
};

const line = (key: string, formula: string, amount: number): ChemistryLine => ({
  key,
  name: key,
  part: "base",
  amount: new Decimal(amount),
  analysis: analysed(formula),
});

const glaze = (feldspar: ChemistryLine, quartz = 25) => ({
  lines: [
    feldspar,
    line("whiting", "CaCO3", 20),
    line("quartz", "SiO2", quartz),
    line("kaolin", "Al2O3·2SiO2·2H2O", 15),
  ],
});
const potash = line("potash feldspar", "K2O·Al2O3·6SiO2", 40);
const soda = line("soda feldspar", "Na2O·Al2O3·6SiO2", 40);

describe("the difference of two recipes", () => {
  it("is nothing, with no doubt, between a recipe and itself", () => {
    for (const { difference, plusMinus } of differencesBetween(glaze(potash), glaze(potash))) {
      expect([difference, plusMinus]).toEqual([0, 0]);
    }
  });

  it("has less doubt than the two have apart, where they share their powders", () => {
    const [before, after] = [workOut(glaze(potash)), workOut(glaze(potash, 27))];
    const silica = differencesBetween(glaze(potash), glaze(potash, 27)).find(
      ({ of }) => of === "SiO2",
    );
    const apart = Math.hypot(before.unity?.SiO2?.plusMinus ?? 0, after.unity?.SiO2?.plusMinus ?? 0);
    expect(silica?.difference).toBeCloseTo(
      (after.unity?.SiO2?.value ?? 0) - (before.unity?.SiO2?.value ?? 0),
      12,
    );
    expect(silica?.plusMinus).toBeLessThan(apart / 5);
  });

  it("is told of ratios, loss and expansion too, with what both share counted once", () => {
    const figures = figureDifferencesBetween(glaze(potash), glaze(soda));
    const named = figures.map(({ of }) => of);
    expect(named).toEqual(
      expect.arrayContaining(["silica-to-alumina", "alkali-share", "loss", "expansion.appen"]),
    );
    const [before, after] = [workOut(glaze(potash)), workOut(glaze(soda))];
    const appen = figures.find(({ of }) => of === "expansion.appen");
    const byAppen = ({ expansion }: Chemistry) =>
      expansion.find(({ model }) => model === "appen")?.value ?? Number.NaN;
    expect(appen?.difference).toBeCloseTo(byAppen(after) - byAppen(before), 12);
    expect(appen?.plusMinus).toBeGreaterThan(0);
    for (const { difference, plusMinus } of figureDifferencesBetween(glaze(potash), glaze(potash)))
      expect([difference, plusMinus]).toEqual([0, 0]);
  });

  it("has the doubts of both where nothing is shared", () => {
    const other = {
      lines: glaze(potash).lines.map((each) => ({ ...each, key: `other ${each.key}` })),
    };
    const silica = differencesBetween(glaze(potash), other).find(({ of }) => of === "SiO2");
    const one = workOut(glaze(potash)).unity?.SiO2?.plusMinus ?? 0;
    // JCGM 100:2008 5.1.2: variances of independent quantities add up.
    expect(silica?.plusMinus).toBeCloseTo(Math.SQRT2 * one, 4);
  });

  it("names what came and what went", () => {
    const named = new Map(
      differencesBetween(glaze(potash), glaze(soda)).map((each) => [each.of, each]),
    );
    expect(named.get("K2O")?.after).toBe(0);
    expect(named.get("Na2O")?.before).toBe(0);
  });
});

describe("what ends an approval", () => {
  const base = workOut(glaze(potash));
  const withSilica = (value: number): Chemistry => ({
    ...base,
    unity: { ...base.unity, SiO2: { value, plusMinus: 0.5 } },
  });
  const kinds = (before: Chemistry, after: Chemistry) =>
    movesBetween(before, after).map(({ kind }) => kind);

  // The bounds are common practice, no source: 2 % of a unity oxide or 0.01, 0.2·10⁻⁶/K.
  it("is a unity oxide that moves by more than 2 %, whatever its ±", () => {
    expect(kinds(withSilica(3), withSilica(3.0599))).toEqual([]);
    expect(kinds(withSilica(3), withSilica(3.0601))).toEqual(["unity"]);
  });

  it("is a small one that moves by more than 0.01", () => {
    const withTitania = (value: number): Chemistry => ({
      ...base,
      unity: { ...base.unity, TiO2: { value, plusMinus: 0 } },
    });
    expect(kinds(withTitania(0.01), withTitania(0.0199))).toEqual([]);
    expect(kinds(withTitania(0.01), withTitania(0.0202))).toEqual(["unity"]);
  });

  it("is an expansion that moves by more than 0.2", () => {
    const [model] = base.expansion;
    const withExpansion = (value: number): Chemistry => ({
      ...base,
      expansion: model ? [{ ...model, value }] : [],
    });
    expect(model).toBeDefined();
    expect(kinds(withExpansion(7), withExpansion(7.19))).toEqual([]);
    expect(kinds(withExpansion(7), withExpansion(6.79))).toEqual(["expansion"]);
  });

  it("is an oxide of the leach list that was not there", () => {
    const barium = workOut({
      lines: [...glaze(potash).lines, line("barium carbonate", "BaCO3", 0.01)],
    });
    expect(movesBetween(base, barium)).toContainEqual({ kind: "leachable", oxide: "BaO" });
    expect(kinds(barium, base)).not.toContain("leachable");
  });

  it("is a finding whose level is another", () => {
    const finding = { rule: "a rule", says: "", source: "" };
    const found = (level: "note" | "stop"): Chemistry => ({
      ...base,
      findings: [{ ...finding, level }],
    });
    expect(movesBetween(found("note"), found("stop"))).toEqual([
      { kind: "finding", rule: "a rule", before: "note", after: "stop" },
    ]);
    expect(movesBetween(found("note"), found("note"))).toEqual([]);
  });

  it("is the swap of one feldspar for another", () => {
    expect(kinds(base, workOut(glaze(soda)))).toContain("unity");
  });
});
