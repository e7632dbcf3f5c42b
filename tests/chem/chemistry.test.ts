import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { type ChemistryLine, engine, faultsOfRequest, workOut } from "../../src/chem/chemistry.ts";
import { analysisOf } from "../reference/published.ts";
import { analysed, eightLines, line, shelf } from "../reference/shelf.ts";

const paths = (lines: ChemistryLine[]) => faultsOfRequest({ lines }).map(({ path }) => path);

describe("the chemistry's answer", () => {
  it("has the parts of the contract and no others", () => {
    const answer = workOut({ lines: eightLines(), explain: true, cone: "6", use: "functional" });
    expect(answer.engine).toBe(engine);
    expect(answer.batch).toEqual({ base: "100", additions: "2", total: "102" });
    expect(Object.keys(answer)).toEqual([
      ...["engine", "conventions", "batch", "lossOnIgnition", "unaccounted"],
      ...["weightPercent", "molePercent", "unity", "ratios", "expansion"],
      ...["findings", "handling", "assumed", "explain"],
    ]);
    expect(JSON.parse(JSON.stringify(answer))).toEqual(answer);
  });

  it("writes large and small batches as plain decimals", () => {
    const lines = [line("A", "1000000", shelf.quartz), line("B", "0.0000001", shelf.whiting)];
    expect(workOut({ lines }).batch.total).toBe("1000000.0000001");
  });

  it("leaves out what was not asked for", () => {
    expect(workOut({ lines: eightLines() })).not.toHaveProperty("explain");
    const ideal = workOut({ lines: [line("Feldspar", 1, analysisOf("K2O·Al2O3·6SiO2"))] });
    expect(ideal).not.toHaveProperty("unaccounted");
    expect(ideal.assumed).toEqual([]);
  });

  // By hand from the IUPAC 2021 abridged weights: 159.687 of Fe2O3 are two FeO, 56.077 of CaO one.
  it("counts iron as it is told, in the unity formula alone", () => {
    const lines = [
      line("Lime", "56.077", analysisOf("CaO")),
      line("Iron", "159.687", analysisOf("Fe2O3"), "addition"),
    ];
    expect(workOut({ lines }).unity).toMatchObject({ CaO: { value: 1 }, Fe2O3: { value: 1 } });
    const reduced = workOut({ lines, iron: "FeO" });
    expect(reduced.unity?.FeO?.value).toBeCloseTo(2, 12);
    expect(reduced.unity?.Fe2O3).toBeUndefined();
    expect(reduced.molePercent.Fe2O3?.value).toBeCloseTo(50, 12);
    const flux = workOut({ lines, iron: "FeO", unity: "fluxes-and-colour" }).unity;
    expect(flux?.FeO?.value).toBeCloseTo(2 / 3, 12);
    expect(flux?.CaO?.value).toBeCloseTo(1 / 3, 12);
    expect(workOut({ lines, unity: "fluxes-and-colour" }).unity?.Fe2O3?.value).toBeCloseTo(1, 12);
  });

  // By hand: 100.086 g of CaCO3 are one mole of CaO.
  it("explains where an oxide comes from, in moles of the batch as given", () => {
    const whiting = analysisOf("CaCO3");
    const lines = [
      line("A", "100.086", whiting),
      line("B", 10, null, "addition"),
      line("A", "300.258", whiting),
    ];
    const from = workOut({ lines, explain: true }).explain?.CaO;
    expect(from?.map((each) => each.line)).toEqual([0, 2]);
    expect(from?.map(({ moles }) => Number(moles.toFixed(9)))).toEqual([1, 3]);
    expect(from?.map(({ share }) => Number(share.toFixed(9)))).toEqual([0.25, 0.75]);
  });

  it("lists what it had to assume, by material", () => {
    const { assumed } = workOut({ lines: [line("Ball clay", 10, shelf.ballClay)] });
    expect(assumed.map(({ what, line: at, material }) => [what, at, material])).toEqual([
      ["plusMinus", 0, "Ball clay"],
      ["loss", 0, "Ball clay"],
    ]);
    expect(assumed[0]?.oxides).toEqual(["SiO2", "Al2O3", "K2O", "Fe2O3", "TiO2", "MgO", "CaO"]);
    expect(assumed[1]?.says).toMatch(/10\.5 %/);
  });
});

describe("faults of a request", () => {
  it.each<[string, ChemistryLine[], string[]]>([
    ["none", eightLines(), []],
    ["no lines", [], ["lines"]],
    ["a base of 0", [line("A", 0, shelf.quartz), line("B", 1, null, "addition")], ["lines"]],
    ["a base too small to weigh", [line("A", "1e-400", shelf.quartz)], ["lines"]],
    ["65 lines", Array.from({ length: 65 }, () => line("A", 1, shelf.quartz)), ["lines"]],
    ["a base line without an analysis", [line("A", 1, null)], ["lines.0.material"]],
    [
      "a negative amount",
      [line("A", 1, shelf.quartz), line("B", -1, shelf.quartz)],
      ["lines.1.amount"],
    ],
    ["an amount that is no number", [line("A", Number.NaN, shelf.quartz)], ["lines.0.amount"]],
    ["an endless amount", [line("A", Number.POSITIVE_INFINITY, shelf.quartz)], ["lines.0.amount"]],
    ["an amount over a million", [line("A", "1000000.1", shelf.quartz)], ["lines.0.amount"]],
    [
      "a bad analysis",
      [line("A", 1, shelf.quartz), line("B", 1, analysed({ SiO2: -1 }))],
      ["lines.1.material.analysis.SiO2.percent"],
    ],
  ])("names the place of %s", (_what, lines, wanted) => expect(paths(lines)).toEqual(wanted));

  it("takes 64 lines, amounts of 0 and of a million", () => {
    const lines = Array.from({ length: 64 }, (_, at) =>
      line("A", at === 0 ? 1_000_000 : 0, shelf.quartz),
    );
    expect(paths(lines)).toEqual([]);
  });

  it("refuses a batch or a scale that weighs nothing", () => {
    const [grams, scaleGrams] = [new Decimal(0), new Decimal(-1)];
    const faults = faultsOfRequest({ lines: eightLines(), grams, scaleGrams });
    expect(faults.map(({ path }) => path)).toEqual(["grams", "scaleGrams"]);
  });
});
