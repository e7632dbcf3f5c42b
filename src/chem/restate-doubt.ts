import { workOut } from "./chemistry.ts";
import type { ChemistryLine } from "./chemistry-types.ts";
import { differencesBetween } from "./differences.ts";
import type { Oxide } from "./oxides.ts";
import { exactWithin, type Moles, missScale } from "./restating.ts";

/**
 * Whether a restated base cannot be told from the one that was wanted: every difference is inside the
 * combined ± of the analyses (k = 2), those that both share counted once.
 */
export function cannotBeToldApart(
  wanted: readonly ChemistryLine[],
  restated: readonly ChemistryLine[],
): boolean {
  const differences = differencesBetween({ lines: wanted }, { lines: restated });
  return differences.every(
    ({ before, difference, plusMinus }) =>
      Math.abs(difference) <= plusMinus + exactWithin * missScale(before),
  );
}

/**
 * The same for a typed unity formula, which has no ± of its own: every oxide that counts is inside
 * that of the restated base.
 */
export function isWithinOwnDoubt(
  wanted: Moles,
  counted: readonly Oxide[],
  restated: readonly ChemistryLine[],
): boolean {
  const { unity } = workOut({ lines: restated });
  return counted.every((oxide) => {
    const want = wanted[oxide] ?? 0;
    const { value, plusMinus } = unity?.[oxide] ?? { value: 0, plusMinus: 0 };
    return Math.abs(value - want) <= plusMinus + exactWithin * missScale(want);
  });
}
