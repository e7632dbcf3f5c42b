import { Decimal } from "decimal.js";

/** One line of a mix: what the batch sheet says, and what is in of it; null where nothing is yet. */
export type WeighedIn = { planned: Decimal; put: Decimal | null };

/** A line that is further off than may be: by how much of itself, in percent, above 0 where over. */
export type OffLine = { line: number; percent: Decimal };

/** What to add of a line, and how much of it is in the bucket then. */
export type CorrectedLine = { more: Decimal; grams: Decimal };

export type MixCorrection =
  /** Nothing is further off than may be. */
  | { kind: "within" }
  /** Something is in that the batch sheet has nothing of: there is nothing to scale to. */
  | { kind: "cannot"; off: OffLine[]; unplanned: number[] }
  /** `factor` is how much larger the batch becomes: 1 where too little is in of the lines that are off. */
  | {
      kind: "correct";
      off: OffLine[];
      factor: Decimal;
      lines: CorrectedLine[];
      totalGrams: Decimal;
    };

const Exact = Decimal.clone({ precision: 80 });

/**
 * How to put a mix right in which a weight is off by more than `tolerancePercent` of its line. What is
 * in does not come out again: where a line is over, the whole batch grows by the factor that the
 * worst of them is over by, and every other line gets what it then lacks; where lines are only short,
 * they get what they lack. Amounts to add are whole steps of the scale, halves up, so that each line
 * ends within half a step of `planned × factor`, but for one that is over by no more than may be.
 *
 * Worked number: of 500 and 300 planned 550 and nothing are in: a factor of 1.1, nothing more of the
 * first and 330 of the second, 880 in all.
 */
export function correctionOf(
  lines: readonly WeighedIn[],
  { tolerancePercent, scaleGrams }: { tolerancePercent: Decimal; scaleGrams: Decimal },
): MixCorrection {
  const unplanned = lines.flatMap(({ planned, put }, line) =>
    planned.isZero() && put?.gt(0) ? [line] : [],
  );
  const off = lines.flatMap((weighed, line) => {
    const percent = percentOff(weighed);
    return percent?.abs().gt(tolerancePercent) ? [{ line, percent }] : [];
  });
  if (unplanned.length > 0) return { kind: "cannot", off, unplanned };
  if (off.length === 0) return { kind: "within" };
  const worst = off.reduce<WeighedIn>(
    (most, { line }) => {
      const weighed = lines[line] as WeighedIn;
      return isFurtherOver(weighed, most) ? weighed : most;
    },
    { planned: new Decimal(1), put: new Decimal(1) },
  );
  const corrected = lines.map((weighed) => correctedLine(weighed, worst, scaleGrams));
  return {
    kind: "correct",
    off,
    factor: times(new Decimal(1), worst),
    lines: corrected,
    totalGrams: corrected.reduce((sum, { grams }) => sum.plus(grams), new Decimal(0)),
  };
}

/** How far a line is off, in percent of itself; null where nothing is in, or nothing is planned. */
export const percentOff = ({ planned, put }: WeighedIn): Decimal | null =>
  put === null || planned.isZero() ? null : put.minus(planned).times(100).div(planned);

const isFurtherOver = (one: WeighedIn, other: WeighedIn): boolean =>
  new Exact(one.put ?? 0).times(other.planned).gt(new Exact(other.put ?? 0).times(one.planned));

/** `amount × put / planned`, without a third being off by its last digit on the way. */
const times = (amount: Decimal, { planned, put }: WeighedIn): Decimal =>
  new Decimal(new Exact(amount).times(put ?? 0).div(planned));

function correctedLine(
  { planned, put }: WeighedIn,
  worst: WeighedIn,
  scaleGrams: Decimal,
): CorrectedLine {
  const inside = put ?? new Decimal(0);
  const lacking = times(planned, worst).minus(inside);
  const steps = lacking.div(scaleGrams).toDecimalPlaces(0, Decimal.ROUND_HALF_UP);
  const more = Decimal.max(0, steps).times(scaleGrams);
  return { more, grams: inside.plus(more) };
}

/**
 * The water that goes with a corrected batch, to the tenth of a gram, the litres that all of it makes,
 * and whether the bucket takes them.
 *
 * Worked number: 7272.7 g of water planned and a factor of 1.1, with 7950 g of powders of 2.65 then,
 * are 8000.0 g of water and 11.0 litres.
 */
export function slurryOfCorrection(
  { factor, totalGrams }: { factor: Decimal; totalGrams: Decimal },
  given: { waterGrams: Decimal; drySpecificGravity: Decimal; bucketLitres: Decimal },
): { waterGrams: Decimal; litres: Decimal; fits: boolean } {
  const waterGrams = given.waterGrams.times(factor).toDecimalPlaces(1, Decimal.ROUND_HALF_UP);
  const litres = waterGrams.plus(totalGrams.div(given.drySpecificGravity)).div(1000);
  return { waterGrams, litres, fits: litres.lte(given.bucketLitres) };
}
