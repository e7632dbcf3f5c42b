import { type Fraction, totalOf } from "./account-fractions.ts";
import type { ChemistryRequest } from "./chemistry-types.ts";
import type { Part } from "./lines.ts";
import type { Melt } from "./melt.ts";
import { type Oxide, oxides } from "./oxides.ts";
import { type Ingredient, type Pull, pullOf, weighings } from "./pulls.ts";

/**
 * What one unknown does to a number's ±: a figure of an analysis, or a weighing. `line` is the first
 * that it stands in, `plusMinus` what it does to the number by itself (k = 2), and `share` its part
 * of the variance. `assumed` where nobody gave the figure a ±.
 */
export type Doubt = {
  key: string;
  line: number;
  of: Oxide | "loss" | "weighing";
  /** Which weighing, where one powder is weighed for the base and again for the additions. */
  part?: Part;
  assumed: boolean;
  plusMinus: number;
  share: number;
};

/** A k = 2 move of one unknown. */
type Move = Omit<Doubt, "plusMinus" | "share"> & { pull: Pull };

/** Below this part of the number a ± is what float64 leaves over. */
const noise = 1e-13;

/**
 * Who brings in how much of a number's ±, largest first, the shares adding up to 1; empty where
 * nothing that the number depends on is in doubt.
 *
 * First order (JCGM 100:2008, 5.1.2): an unknown that moves the upper sum by dA and the lower by dB
 * moves the number by scale × (dA − (A/B) dB)/B, and the squares add up to that of the ±.
 *
 * Worked number: SiO2 60 ± 1 and Al2O3 40 ± 1, nothing else: SiO2 in the glass, 60 %, moves by 0.4
 * and by −0.6, so the alumina's share is 0.36/0.52 = 0.69.
 */
export function doubtsOf(request: ChemistryRequest, melt: Melt, fraction: Fraction): Doubt[] {
  const { scale, above, below } = fraction;
  const batch: Pull = melt;
  const bottom = totalOf(below, batch);
  const ratio = totalOf(above, batch) / bottom;
  const effects = movesOf(request, melt).map(({ pull, ...unknown }) => {
    const moved = totalOf(above, pull) - ratio * totalOf(below, pull);
    return { ...unknown, plusMinus: Math.abs((scale * moved) / bottom) };
  });
  const floor = noise * Math.abs(scale * ratio);
  const felt = effects.filter(({ plusMinus }) => plusMinus > floor);
  const variance = felt.reduce((sum, { plusMinus }) => sum + plusMinus ** 2, 0);
  return felt
    .map((doubt) => ({ ...doubt, share: doubt.plusMinus ** 2 / variance }))
    .sort((a, b) => b.share - a.share || a.line - b.line);
}

/** Every unknown of a batch, and what it does to the batch: one analysis in several lines is one. */
function movesOf(request: ChemistryRequest, { ingredients }: Melt): Move[] {
  return ingredients.flatMap((ingredient) => [
    ...figuresMoved(request, ingredient),
    ...weighingsMoved(request, ingredient),
  ]);
}

function figuresMoved({ lines }: ChemistryRequest, { line, powder, amount }: Ingredient): Move[] {
  if (!powder) return [];
  const key = lines[line]?.key ?? "";
  const share = amount / 100;
  const moves = powder.listed.map((of, index): Move => {
    const spread = share * (powder.ownPlusMinus[index] ?? 0);
    const masses = new Float64Array(oxides.length);
    masses[powder.places[index] ?? 0] = spread;
    // A loss that is the rest of 100 shrinks by what an oxide grows.
    const pull = { masses, loss: powder.lossIs === "rest" ? -spread : 0, weight: 0 };
    return { key, line, of, assumed: powder.assumed.includes(of), pull };
  });
  if (powder.lossIs !== "given") return moves;
  const percents = powder.pullOfLoss ?? [];
  const pull = pullOf(powder, percents, share, share * powder.lossPlusMinus, 0);
  return [...moves, { key, line, of: "loss", assumed: powder.lossPlusMinusAssumed, pull }];
}

function weighingsMoved(request: ChemistryRequest, ingredient: Ingredient): Move[] {
  const pulls: Pull[] = [];
  weighings(request, [ingredient], pulls);
  const { line } = ingredient;
  const key = request.lines[line]?.key ?? "";
  const mine = request.lines.filter((each) => each.key === key && !each.amount.isZero());
  const parts = (["base", "addition"] as const).filter((part) =>
    mine.some((each) => each.part === part),
  );
  return pulls.map((pull, at): Move => {
    const part = parts[at];
    return { key, line, of: "weighing", ...(part && { part }), assumed: false, pull };
  });
}
