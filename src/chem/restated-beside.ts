import { type ChemistryRequest, workOut } from "./chemistry.ts";
import {
  type Difference,
  differencesBetween,
  type FigureName,
  figureDifferencesBetween,
} from "./differences.ts";
import { type Move, movesBetween } from "./moves.ts";
import { exactWithin, missScale } from "./restating.ts";

/** A recipe beside the one that is to take its place. */
export type RestatedBeside = {
  /** The oxide of the unity formula that moved most, in parts of what was there. */
  worst: Difference | null;
  /** What of the unity formula moved by more than the ± of its difference. */
  toldApart: Difference[];
  /** How the loss on ignition and the expansion by each model moved. */
  figures: Difference<FigureName>[];
  /** What moved further than an approval bears. */
  moves: Move[];
};

/**
 * What restating a recipe changes in it. Moles for one of flux, percent, 10⁻⁶/K, every ± at k = 2 and
 * of the difference itself. The requests must have no faults.
 *
 * Worked number: SiO2 from 3.00 to 3.06 and CaO from 0.70 to 0.68 is worst in CaO, by 2.9 % of it.
 */
export function restatedBeside(before: ChemistryRequest, after: ChemistryRequest): RestatedBeside {
  const differences = differencesBetween(before, after);
  const share = ({ before: was, difference }: Difference) => Math.abs(difference) / missScale(was);
  const byShare = [...differences].sort((a, b) => share(b) - share(a));
  return {
    worst: byShare[0] ?? null,
    toldApart: differences.filter(
      ({ before: was, difference, plusMinus }) =>
        Math.abs(difference) > plusMinus + exactWithin * missScale(was),
    ),
    figures: figureDifferencesBetween(before, after).filter(
      ({ of }) => of === "loss" || of.startsWith("expansion."),
    ),
    moves: movesBetween(workOut(before), workOut(after)),
  };
}
