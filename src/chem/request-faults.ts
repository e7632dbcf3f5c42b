import { type Fault, faultsOfAnalysis } from "./analysis.ts";
import type { ChemistryRequest } from "./chemistry-types.ts";
import { baseTotal } from "./lines.ts";

/** The most lines a recipe may have, and the largest amount of one. */
export const mostLines = 64;
export const mostAmount = 1_000_000;

/** A base below this counts as 0: nobody weighs it, and float64 ends there. */
const leastBase = "1e-9";

/**
 * What is wrong with a request; empty where `workOut` can answer it. Paths are dotted and count
 * from 0: `lines.0.amount`, `lines.2.material.analysis.SiO2.percent`, `lines` for the whole,
 * `grams`, `scaleGrams`.
 */
export function faultsOfRequest(request: ChemistryRequest): Fault[] {
  const { lines } = request;
  if (lines.length > mostLines) {
    return [
      { path: "lines", says: `A recipe has at most ${mostLines} lines; this has ${lines.length}.` },
    ];
  }
  const faults = lines.flatMap(({ part, amount, analysis }, index) => {
    const path = `lines.${index}`;
    const own: Fault[] = [];
    if (!(amount.gte(0) && amount.lte(mostAmount))) {
      own.push({ path: `${path}.amount`, says: "An amount is a number from 0 to 1000000." });
    }
    if (!analysis && part === "base") {
      own.push({
        path: `${path}.material`,
        says: "A base material needs an analysis or a formula. What has none can only be an addition.",
      });
    }
    if (!analysis) return own;
    const ofAnalysis = faultsOfAnalysis(analysis).map((fault) => ({
      ...fault,
      path: `${path}.material.${fault.path}`,
    }));
    return [...own, ...ofAnalysis];
  });
  return [...faults, ...faultsOfWeighing(request), ...faultsOfBase(request, faults)];
}

function faultsOfWeighing({ grams, scaleGrams }: ChemistryRequest): Fault[] {
  const faults: Fault[] = [];
  if (grams && !(grams.gt(0) && grams.lte(mostAmount))) {
    faults.push({ path: "grams", says: "A batch weighs more than 0 and at most 1000000 g." });
  }
  if (scaleGrams && !(scaleGrams.gt(0) && scaleGrams.lte(1000))) {
    faults.push({ path: "scaleGrams", says: "A scale's step is more than 0 and at most 1000 g." });
  }
  return faults;
}

function faultsOfBase({ lines }: ChemistryRequest, faults: readonly Fault[]): Fault[] {
  if (faults.some(({ path }) => path.endsWith(".amount")) || baseTotal(lines).gte(leastBase))
    return [];
  return [{ path: "lines", says: "The base totals 0. Give at least one base line an amount." }];
}
