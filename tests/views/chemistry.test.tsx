import { Decimal } from "decimal.js";
import { expect, it } from "vitest";
import { type ChemistryLine, workOut } from "../../src/chem/chemistry.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";
import { ChemistryTables } from "../../views/parts/chemistry.tsx";
import { OxideName } from "../../views/parts/oxide.tsx";

const line = (name: string, formula: string, amount: string): ChemistryLine => {
  const worked = analysisOfFormula(formula, { ideal: true });
  if (worked.kind !== "analysis") throw new Error(worked.says);
  return { key: name, name, part: "base", amount: new Decimal(amount), analysis: worked.analysis };
};

// H. A. Seger, "Pyrometers and the Measurement of High Temperature. Standard Cones": the batch of
// his cone 8, whose formula is K2O 0.3, CaO 0.7, Al2O3 0.8, SiO2 8.
const cone8 = [
  line("Feldspar", "K2O.Al2O3.6SiO2", "83.55"),
  line("Whiting", "CaCO3", "35"),
  line("Quartz", "SiO2", "156"),
  line("Kaolin", "Al2Si2O5(OH)4", "64.75"),
];
const names = cone8.map(({ name }) => name);

const columns = (page: string) =>
  page
    .split('class="unity-column"')
    .slice(1)
    .map((column) =>
      [...(column.split("</dl>")[0] ?? "").matchAll(/id="means-(\w+)"/g)].map(([, oxide]) => oxide),
    );

it("sets the unity formula in the trade's three columns", () => {
  const page = String(<ChemistryTables chemistry={workOut({ lines: cone8 })} lineNames={names} />);

  expect(columns(page)).toEqual([["K2O", "CaO"], ["Al2O3"], ["SiO2"]]);
});

it("puts the colouring fluxes with the fluxes where they were counted with them", () => {
  const lines = [...cone8, line("Copper oxide", "CuO", "20")];
  const unityColumns = (unity: "fluxes" | "fluxes-and-colour") =>
    columns(String(<ChemistryTables chemistry={workOut({ lines, unity })} lineNames={names} />));

  expect(unityColumns("fluxes")[2]).toContain("CuO");
  expect(unityColumns("fluxes-and-colour")[0]).toContain("CuO");
});

it("says that there is no unity formula, and why, where nothing is a flux", () => {
  const page = String(
    <ChemistryTables
      chemistry={workOut({ lines: [line("Quartz", "SiO2", "100")] })}
      lineNames={["Quartz"]}
    />,
  );

  expect(page).toContain("there is no flux in this melt to divide by");
  expect(page).toContain("none: no alumina to divide by");
});

it("gives each finding its level as a word", () => {
  const lead = [...cone8, line("Litharge", "PbO", "10")];
  const page = String(<ChemistryTables chemistry={workOut({ lines: lead })} lineNames={names} />);

  expect(page).toMatch(/class="finding finding-stop">.*?>Stop</s);
});

it("shows which line brings which oxide, as drawing and as table, and twins apart", () => {
  const chemistry = workOut({ lines: cone8, explain: true });
  const page = String(
    <ChemistryTables chemistry={chemistry} lineNames={["Spar", "Chalk", "Spar", "Clay"]} />,
  );

  expect(page).toContain("K2O: Spar (line 1) 100 %.");
  expect(page).toContain('<th scope="row">Spar (line 3)</th>');
});

it("sets the numbers of an oxide low", () => {
  expect(String(<OxideName oxide="Al2O3" />)).toContain("Al<sub>2</sub>O<sub>3</sub>");
});
