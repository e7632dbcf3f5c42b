import { Decimal } from "decimal.js";
import type { Analysis, Basis, Figure } from "../../src/chem/analysis.ts";
import type { ChemistryLine } from "../../src/chem/chemistry-types.ts";
import type { Part } from "../../src/chem/lines.ts";
import type { Oxide } from "../../src/chem/oxides.ts";

/** Invented demo analyses of common powders: plausible, and of no real product. */
export const shelf = {
  potashFeldspar: analysed(
    { SiO2: 66.3, Al2O3: 18.1, K2O: 11.2, Na2O: 3.1, CaO: 0.3, Fe2O3: 0.1 },
    0.4,
  ),
  whiting: analysed({ CaO: 55.2, MgO: 0.4, SiO2: 0.7, Fe2O3: 0.06 }, 43.4),
  quartz: analysed({ SiO2: 99.2, Al2O3: 0.3, Fe2O3: 0.03 }, 0.2),
  kaolin: analysed({ SiO2: 47.4, Al2O3: 37.1, Fe2O3: 0.6, TiO2: 0.05, K2O: 1.7, MgO: 0.2 }, 12.6),
  ballClay: analysed({
    SiO2: 55.1,
    Al2O3: 29.3,
    K2O: 2.1,
    Fe2O3: 1.1,
    TiO2: 1.3,
    MgO: 0.4,
    CaO: 0.2,
  }),
  talc: analysed({ SiO2: 61.5, MgO: 31.2, CaO: 0.6, Al2O3: 0.8, Fe2O3: 0.4 }, 5.2),
  frit: analysed({ SiO2: 48, B2O3: 23, CaO: 16, Na2O: 9, Al2O3: 4 }, 0),
  ironOxide: analysed({ Fe2O3: 95.5, SiO2: 2.2, Al2O3: 0.9, MnO: 0.2 }, 0.6),
  calcinedClay: analysed({ SiO2: 53.8, Al2O3: 43.6, K2O: 1.2, TiO2: 0.4 }, 12.2, "calcined"),
};

export function analysed(
  percents: Partial<Record<Oxide, number>>,
  loss?: number,
  basis: Basis = "asReceived",
): Analysis {
  const figures = Object.entries(percents).map(([oxide, percent]): [string, Figure] => [
    oxide,
    { percent: new Decimal(percent) },
  ]);
  const oxides: Partial<Record<Oxide, Figure>> = Object.fromEntries(figures);
  if (loss === undefined) return { basis, oxides };
  return { basis, oxides, lossOnIgnition: { percent: new Decimal(loss) } };
}

export function line(
  name: string,
  amount: Decimal.Value,
  analysis: Analysis | null,
  part: Part = "base",
): ChemistryLine {
  return { key: name, name, part, amount: new Decimal(amount), analysis };
}

/** A glaze of eight analysed lines, one of them an addition; invented. */
export const eightLines = (): ChemistryLine[] => [
  line("Potash feldspar", 32, shelf.potashFeldspar),
  line("Whiting", 12, shelf.whiting),
  line("Quartz", 18, shelf.quartz),
  line("Kaolin", 10, shelf.kaolin),
  line("Ball clay", 8, shelf.ballClay),
  line("Talc", 6, shelf.talc),
  line("Loft frit B", 14, shelf.frit),
  line("Red iron oxide", 2, shelf.ironOxide, "addition"),
];
