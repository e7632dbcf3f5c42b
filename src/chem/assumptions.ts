import type { Assumption } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";

/**
 * What had to be assumed, material by material. A ± is of the powder that the analysis is of:
 * another powder of the same name may lie much further off.
 */
export function assumptionsOf({ ingredients }: Melt): Assumption[] {
  return ingredients.flatMap(({ name: material, line, powder }) => {
    if (!powder) return [];
    const assumed: Assumption[] = [];
    const { assumed: oxides, lossPlusMinusAssumed, lossIs, loss } = powder;
    if (oxides.length > 0 || lossPlusMinusAssumed) {
      const figures = lossPlusMinusAssumed ? [...oxides, "loss on ignition"] : oxides;
      const says = `${material}: no ± was given for ${figures.join(", ")}, so 3 % of each was assumed, at least 0.1. The figures are taken as independent.`;
      assumed.push({ what: "plusMinus", line, material, oxides: [...oxides], says });
    }
    if (lossIs !== "given") {
      const says =
        lossIs === "rest"
          ? `${material}: no loss on ignition was given, so it was taken as what is missing from 100: ${Number(loss.toPrecision(3))} %.`
          : `${material}: no loss on ignition was given and the oxides pass 100, so it was taken as 0.`;
      assumed.push({ what: "loss", line, material, oxides: [], says });
    }
    return assumed;
  });
}
