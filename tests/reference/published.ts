import { Decimal } from "decimal.js";
import type { ChemistryLine } from "../../src/chem/chemistry-types.ts";
import type { Oxide } from "../../src/chem/oxides.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";
import segerRecords from "./seger-batches.json" with { type: "json" };
import workedExamples from "./unity-worked-examples.json" with { type: "json" };

/** A batch somebody printed together with its unity formula. */
export type PrintedBatch = {
  id: string;
  source: string;
  how: string;
  materials: Record<string, { formula: string; amount: string | number }>;
  published_unity: Partial<Record<Oxide, number>>;
  suggested_tolerance_vs_published: number;
  computed_modern: {
    unity: Partial<Record<Oxide, number>>;
    weight_percent_fired: Partial<Record<Oxide, number>>;
    loi_percent: number;
    SiO2_Al2O3: number | null;
  };
};

const isBatch = (record: object): record is PrintedBatch =>
  "materials" in record && "published_unity" in record && "computed_modern" in record;

export const segerBatches = (segerRecords as object[]).filter(isBatch);
export const workedBatches = (workedExamples as object[]).filter(isBatch);

/** The analysis of a formula that the test knows to be one. */
export function analysisOf(formula: string, ideal = true) {
  const worked = analysisOfFormula(formula, { ideal });
  if (worked.kind !== "analysis") throw new Error(`${formula}: ${worked.says}`);
  return worked.analysis;
}

export const linesOf = ({ materials }: PrintedBatch): ChemistryLine[] =>
  Object.entries(materials).map(([name, { formula, amount }]) => ({
    key: name,
    name,
    part: "base",
    amount: new Decimal(amount),
    analysis: analysisOf(formula),
  }));
