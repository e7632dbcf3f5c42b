import type { ChemistryRequest, Contribution } from "./chemistry-types.ts";
import { toFloat } from "./float.ts";
import { molarMass, type Oxide } from "./oxides.ts";
import { type Powder, powderOf } from "./powder.ts";

/**
 * Where each oxide comes from. `line` is the index in the request; `moles` are those in the batch
 * as given, with its parts read as grams; the shares of one oxide add up to 1. Iron counts as
 * Fe2O3. Lines that bring none of an oxide, or have no analysis, are left out of it.
 *
 * Worked number: 100 parts of whiting, CaCO3, bring 0.999 moles of CaO.
 */
export function explainOxides({ lines }: ChemistryRequest) {
  const explained: Partial<Record<Oxide, Contribution[]>> = {};
  const powders = new Map<string, Powder>();
  for (const [line, { key, analysis, amount }] of lines.entries()) {
    if (!analysis) continue;
    const powder = powders.get(key) ?? powderOf(analysis);
    powders.set(key, powder);
    for (const [index, oxide] of powder.listed.entries()) {
      const grams = (toFloat(amount) * (powder.percent[index] ?? 0)) / 100;
      if (grams === 0) continue;
      explained[oxide] ??= [];
      explained[oxide].push({ line, moles: grams / molarMass[oxide], share: 0 });
    }
  }
  for (const contributions of Object.values(explained)) {
    const total = contributions.reduce((sum, { moles }) => sum + moles, 0);
    for (const contribution of contributions) contribution.share = contribution.moles / total;
  }
  return explained;
}
