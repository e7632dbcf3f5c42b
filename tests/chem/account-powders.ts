import { Decimal } from "decimal.js";
import type { Analysis } from "../../src/chem/analysis.ts";
import type { Oxide } from "../../src/chem/oxides.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";
import { line } from "../reference/shelf.ts";

/** A textbook formula, exact. */
export const ideal = (formula: string): Analysis => {
  const worked = analysisOfFormula(formula, { ideal: true });
  if (worked.kind !== "analysis") throw new Error(worked.says);
  return worked.analysis;
};

/** An analysis with a ± of its own for each oxide. */
export const powder = (figures: Partial<Record<Oxide, [percent: number, plusMinus: number]>>) => ({
  basis: "asReceived" as const,
  oxides: Object.fromEntries(
    Object.entries(figures).map(([oxide, [percent, plusMinus]]) => [
      oxide,
      { percent: new Decimal(percent), plusMinus: new Decimal(plusMinus) },
    ]),
  ),
});

/** H. A. Seger, cone 4, Tonindustrie-Zeitung 1886, p. 135, with the formulas of the textbooks. */
export const seger = {
  lines: [
    line("Feldspar", 83.55, ideal("K2O·Al2O3·6SiO2")),
    line("Whiting", 35, ideal("CaCO3")),
    line("Quartz", 54, ideal("SiO2")),
    line("Kaolin", 25.9, ideal("Al2O3·2SiO2·2H2O")),
  ],
};
