import { assumptionsOf } from "./assumptions.ts";
import type { Chemistry, ChemistryRequest, Iron, Quantity } from "./chemistry-types.ts";
import { expansionOf } from "./expansion.ts";
import { explainOxides } from "./explain.ts";
import { findingsOf } from "./findings.ts";
import { handlingOf } from "./findings-handling.ts";
import { additionsTotal, baseTotal } from "./lines.ts";
import { lossOnIgnition, unaccounted } from "./loss.ts";
import { type Melt, meltOf, oxideAt } from "./melt.ts";
import type { Oxide } from "./oxides.ts";
import { proportions } from "./proportions.ts";
import { ratiosOf } from "./ratios.ts";
import {
  everyOxide,
  molesPerGram,
  molesPerGramAsFeO,
  perGram,
  unityBase,
  unityName,
} from "./unity-base.ts";

export type * from "./chemistry-types.ts";
export { faultsOfRequest, mostAmount, mostLines } from "./request-faults.ts";

/** Moves when an equal request would get another answer; stored beside every stored answer. */
export const engine = "1.2.0";

/**
 * The chemistry of a batch: what stays as glass, its unity formula and ratios, what the rules say,
 * and what had to be assumed. The request must have no faults (faultsOfRequest).
 *
 * Weight and mole percent are of the fired glass, each adding up to 100, with iron as Fe2O3. Loss
 * and rest are percent of the batch as weighed: glass + loss + unaccounted = 100. `unaccounted` is
 * there only where it is not 0. `unity` is moles for each mole of the chosen base, null without a
 * flux; `iron: "FeO"` shows each Fe2O3 there as two FeO. The ratios are of the same base.
 *
 * Each ± is expanded (k = 2, 95 %), first order, over the independent unknowns: every listed oxide
 * and every given loss of each distinct analysis (`key`), and with `grams` and `scaleGrams` each
 * weighing. Values are float64 and unrounded. `explain` names where each oxide comes from: `moles`
 * in the batch with its parts read as grams, `line` the index in the request, shares adding to 1.
 *
 * Worked number: feldspar K2O·Al2O3·6SiO2 83.55, CaCO3 35, SiO2 54, Al2O3·2SiO2·2H2O 25.90, with
 * 9.58 % loss, gives K2O 0.30, CaO 0.70, Al2O3 0.50, SiO2 4.00.
 * Source: H. A. Seger, cone 4, Tonindustrie-Zeitung 1886, p. 135.
 */
export function workOut(request: ChemistryRequest): Chemistry {
  const { lines, unity = "fluxes", iron = "Fe2O3", boron = "apart" } = request;
  const melt = meltOf(request);
  const [base, additions] = [baseTotal(lines), additionsTotal(lines)];
  const inUnity = unityBase(unity, iron);
  const inMoles = iron === "FeO" ? molesPerGramAsFeO : molesPerGram;
  const rest = unaccounted(melt);
  return {
    engine,
    conventions: { unity, iron, boron },
    batch: {
      base: base.toFixed(),
      additions: additions.toFixed(),
      total: base.plus(additions).toFixed(),
    },
    lossOnIgnition: { ...lossOnIgnition(melt), unit: "percent of batch" },
    ...(Math.abs(rest.value) > noRest
      ? { unaccounted: { ...rest, unit: "percent of batch" } }
      : {}),
    weightPercent: percents(melt, perGram),
    molePercent: percents(melt, molesPerGram),
    unity: unityFormula(melt, inMoles, inUnity, iron),
    ratios: ratiosOf(melt, { unity, iron, boron }),
    expansion: expansionOf(melt),
    findings: findingsOf(request, melt),
    handling: handlingOf(melt),
    assumed: assumptionsOf(melt),
    ...(request.explain ? { explain: explainOxides(request) } : {}),
  };
}

/** Below this a rest is float64 noise, percent. */
const noRest = 1e-9;

function percents(melt: Melt, coefficients: Float64Array): Partial<Record<Oxide, Quantity>> {
  const byOxide: Partial<Record<Oxide, Quantity>> = {};
  if (melt.glass <= 0) return byOxide;
  const quantities = proportions(melt, coefficients, everyOxide, 100);
  for (let at = 0; at < quantities.length; at++) {
    byOxide[oxideAt(melt.present[at] ?? 0)] = quantities[at] as Quantity;
  }
  return byOxide;
}

function unityFormula(melt: Melt, inMoles: Float64Array, inUnity: Uint8Array, iron: Iron) {
  if (!melt.present.some((place) => inUnity[place] && (melt.masses[place] ?? 0) > 0)) return null;
  const formula: NonNullable<Chemistry["unity"]> = {};
  const quantities = proportions(melt, inMoles, inUnity, 1);
  for (let at = 0; at < quantities.length; at++) {
    formula[unityName(oxideAt(melt.present[at] ?? 0), iron)] = quantities[at] as Quantity;
  }
  return formula;
}
