import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { type ChemistryLine, type Use, workOut } from "../../src/chem/chemistry.ts";
import { poisons } from "../../src/chem/rules.ts";
import { analysisOf } from "../reference/published.ts";
import { analysed, line, shelf } from "../reference/shelf.ts";

const glaze = (...more: ChemistryLine[]) => [
  line("Feldspar", 50, analysisOf("K2O·Al2O3·6SiO2")),
  line("Whiting", 20, analysisOf("CaCO3")),
  line("Quartz", 30, analysisOf("SiO2")),
  ...more,
];
const found = (lines: ChemistryLine[], use?: Use) =>
  workOut({ lines, use }).findings.map(({ rule, level }) => `${level} ${rule}`);
const added = (name: string, formula: string, amount: number) =>
  line(name, amount, analysisOf(formula), "addition");

// The thresholds are the rules file's: common practice, no source.
describe("the screen", () => {
  it("has nothing to say of a plain lime glaze", () => expect(found(glaze())).toEqual([]));

  it.each([
    ["lead", "PbO"],
    ["cadmium", "CdO"],
    ["antimony", "Sb2O3"],
    ["selenium", "SeO2"],
    ["uranium", "U3O8"],
  ])("stops %s over 0.01 % of the fired glass and notes it below", (rule, oxide) => {
    // 91.2 parts of glass are left of the base, so 0.0091 parts more are 0.01 %.
    expect(found(glaze(added("Powder", oxide, 0.0095)))).toContain(`stop ${rule}`);
    expect(found(glaze(added("Powder", oxide, 0.0085)))).toEqual([`note ${rule}`]);
  });

  it("gives the figure of a trace", () => {
    const { findings } = workOut({ lines: glaze(added("Zinc oxide", "PbO", 0.001)) });
    expect(findings[0]?.value).toBeCloseTo(0.1 / 91.2, 5);
    expect(findings[0]).toMatchObject({ rule: "lead", level: "note", limit: 0.01 });
  });

  it.each([
    ["Lead bisilicate", "stop lead"],
    ["white LEAD", "stop lead"],
    ["Cadmium inclusion stain", "stop cadmium"],
    ["Naples yellow", "stop antimony"],
  ])("stops a product named for a poison: %s", (name, wanted) => {
    expect(found(glaze(line(name, 5, null, "addition")))).toEqual([wanted, "caution no-analysis"]);
  });

  it.each([
    "Lead-free frit",
    "Frit without lead",
    "Non-lead frit",
    "Leadenhall clay",
    "Cadmium free red",
  ])("does not take %s for one", (name) =>
    expect(found(glaze(line(name, 5, shelf.frit)))).toEqual([]),
  );

  it("asks no laboratory of a decorative glaze, and says where to keep it", () => {
    const says = (use: "functional" | "decorative") =>
      workOut({ lines: glaze(added("Barium carbonate", "BaCO3", 20)), use }).findings.find(
        ({ rule }) => rule === "leach-report",
      )?.says;
    expect(says("functional")).toContain("leach-tested by a laboratory");
    expect(says("decorative")).toMatch(/Keep it off anything that may touch food/);
    expect(says("decorative")).not.toContain("laboratory");
  });

  it("keeps barium matts and metal fluxes to decorative ware", () => {
    const barium = glaze(added("Barium carbonate", "BaCO3", 20));
    expect(found(barium)).toEqual(["stop barium-matt", "caution leach-report"]);
    expect(found(barium, "decorative")).toEqual(["caution barium-matt", "note leach-report"]);
    const metal = glaze(
      added("Manganese dioxide", "MnO2", 20),
      added("Black copper oxide", "CuO", 5),
    );
    expect(found(metal, "functional")).toContain("stop metal-flux");
    expect(found(metal, "decorative")).toContain("caution metal-flux");
    expect(found(metal)).toContain("caution colour-as-flux");
  });

  it("asks for a leach report, element by element", () => {
    const { findings } = workOut({
      lines: glaze(added("Cobalt", "CoO", 1), added("Chromium", "Cr2O3", 1)),
    });
    expect(findings.map(({ says }) => says.split(" ")[0])).toEqual(["CoO", "Cr2O3"]);
    expect(findings.every(({ rule }) => rule === "leach-report")).toBe(true);
  });

  it("names the material that leaves over 2 % unaccounted", () => {
    const { findings } = workOut({
      lines: glaze(line("Odd clay", 10, analysed({ SiO2: 60, Al2O3: 27.9 }, 10))),
    });
    expect(findings).toMatchObject([{ rule: "unaccounted", level: "caution", limit: 2 }]);
    expect(findings[0]?.says).toMatch(/Odd clay leaves 2\.1 %/);
    expect(found(glaze(line("Fair clay", 10, analysed({ SiO2: 60, Al2O3: 28 }, 10))))).toEqual([]);
  });

  it("says what it leaves out and cannot judge", () => {
    const { findings, unaccounted } = workOut({
      lines: glaze(line("Blue stain", 10, null, "addition")),
    });
    expect(findings[0]?.says).toMatch(/Blue stain has no analysis.*cannot judge/);
    expect(unaccounted?.value).toBeCloseTo(1000 / 110, 8);
  });

  it("warns of fumes, of which part may stay", () => {
    const { findings } = workOut({ lines: glaze(line("Fluorspar", 5, analysisOf("CaF2"))) });
    expect(findings).toMatchObject([{ rule: "fumes", level: "caution" }]);
    expect(findings[0]?.says).toMatch(/Fluorspar gives off fluorine.*part may stay/);
  });

  // By hand: 8 parts of Fe2O3 are 0.100 moles of FeO, on 0.09 K2O + 0.20 CaO = 0.29 of flux.
  it("says where colouring oxides make the unity formula misleading", () => {
    expect(found(glaze(added("Red iron oxide", "Fe2O3", 8)))).toEqual(["caution colour-as-flux"]);
    expect(found(glaze(added("Red iron oxide", "Fe2O3", 6)))).toEqual([]);
  });

  it("answers null where there is nothing to divide by, and says why", () => {
    const clay = workOut({ lines: [line("Kaolin", 10, analysisOf("Al2O3·2SiO2·2H2O"))] });
    expect(clay).toMatchObject({ unity: null, ratios: { alkaliShare: null } });
    expect(clay.findings.map(({ rule }) => rule)).toEqual(["no-flux"]);
    const lime = workOut({ lines: [line("Whiting", 10, analysisOf("CaCO3"))] });
    expect(lime.ratios.silicaToAlumina).toBeNull();
    expect(lime.findings.map(({ rule }) => rule)).toEqual(["no-alumina"]);
  });

  it("bears a batch of which nothing is left", () => {
    const gone = workOut({ lines: [line("Wax", 10, analysed({ SiO2: 0 }, 100))] });
    expect(gone).toMatchObject({ weightPercent: {}, molePercent: {}, unity: null });
    expect(gone.findings.map(({ rule }) => rule)).toEqual(["no-glass"]);
    expect(gone.lossOnIgnition.value).toBe(100);
  });

  it("never calls anything safe, and always gives a source", () => {
    const everything = poisons.map(({ name, oxide }) => added(name, oxide, 3));
    const lines = glaze(
      ...everything,
      added("Barium", "BaSO4", 40),
      line("Stain", 1, null, "addition"),
    );
    for (const { says, source } of workOut({ lines }).findings) {
      expect(says).not.toMatch(/safe|durable|stable|approved/i);
      expect(says).toMatch(/^[A-Z].+\.$/);
      expect(source).not.toBe("");
    }
  });

  it("speaks of the gravest first", () => {
    const lines = glaze(
      added("Lead", "PbO", 0.001),
      added("Cadmium", "CdO", 1),
      line("Stain", new Decimal(1), null, "addition"),
    );
    expect(found(lines).map((each) => each.split(" ")[0])).toEqual([
      "stop",
      "stop",
      "caution",
      "caution",
    ]);
  });
});
