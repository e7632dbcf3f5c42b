import { Decimal } from "decimal.js";
import type { Fault } from "./analysis.ts";
import { batchSheet, type Coarse } from "./batch.ts";
import { exactGrams, type WeightUnit } from "./batch-amounts.ts";
import type { WeighedLine } from "./lines.ts";

/** The step that a tub is weighed in: about a gram, in pounds half of one; in grams a tenth. */
export const tubSteps: Readonly<Record<WeightUnit, Decimal>> = {
  g: new Decimal("0.1"),
  kg: new Decimal("0.001"),
  lb: new Decimal("0.001"),
};

/** Dry base for a tub where nothing else is asked for: 5 kg, in pounds the nearest whole ones. */
export const usualTub: Readonly<Record<WeightUnit, Decimal>> = {
  g: new Decimal(5000),
  kg: new Decimal(5),
  lb: new Decimal(11),
};

/** The most that a tub may hold of dry base, grams. */
const mostGrams = 1_000_000;

/** What to weigh for a tub, every weight in whole steps of its unit. */
export type Tub<Line> =
  | {
      kind: "tub";
      unit: WeightUnit;
      lines: { line: Line; weight: Decimal }[];
      base: Decimal;
      total: Decimal;
      coarse: Coarse[];
    }
  | { kind: "refused"; faults: Fault[] };

/**
 * What to weigh for a tub with so much dry base, additions on top, in one unit from first to last: as
 * `batchSheet` rounds grams, so that the base lines add up to `base` and all of them to `total`.
 *
 * @returns `refused` with the path `tub` where nobody could weigh so much, or `lines`.
 *
 * Worked number: three equal lines for 10 lb are 3.334, 3.333 and 3.333 lb.
 */
export function tubOf<Line extends WeighedLine>(
  lines: readonly Line[],
  { base, unit }: { base: Decimal; unit: WeightUnit },
): Tub<Line> {
  const step = tubSteps[unit];
  if (!(base.gt(0) && exactGrams(base, unit).lte(mostGrams) && base.mod(step).isZero())) {
    const says = `More than 0 and at most ${mostIn[unit]} ${unit} of dry base, in steps of ${step.toFixed()} ${unit}.`;
    return { kind: "refused", faults: [{ path: "tub", says }] };
  }
  const sheet = batchSheet({ lines, grams: base, scaleGrams: step });
  if (sheet.kind === "refused") return sheet;
  return {
    kind: "tub",
    unit,
    lines: sheet.lines.map(({ line, grams }) => ({ line, weight: grams })),
    base,
    total: sheet.totalGrams,
    coarse: sheet.coarse,
  };
}

const mostIn: Readonly<Record<WeightUnit, string>> = { g: "1000000", kg: "1000", lb: "2204" };
