import { Decimal } from "decimal.js";
import type { Fault } from "./analysis.ts";
import { baseTotal, type WeighedLine } from "./lines.ts";
import { faultsOfSlurry, slurryOf } from "./slurry.ts";

/** What a powder's dry specific gravity is taken as where it is not known: common practice. */
export const assumedDryGravity = new Decimal("2.65");

type PowderAmount = { readonly amount: Decimal; readonly drySpecificGravity?: Decimal | undefined };

/** A line of a recipe, with its powder's dry specific gravity where that is on record. */
export type SlurriedLine = WeighedLine & PowderAmount;

/**
 * The dry specific gravity of mixed powders, S = Σm/Σ(m/s): masses add up, and so do volumes.
 *
 * @returns `assumed`: how many of the powders had none of their own and were taken as 2.65.
 *
 * Worked number: 50 g of 2.6 and 50 g of 5.2 are 100 g in 28.85 ml, hence 3.467.
 */
export function dryGravityOf(powders: readonly PowderAmount[]): {
  value: Decimal;
  assumed: number;
} {
  const there = powders.filter(({ amount }) => amount.gt(0));
  const mass = there.reduce((sum, { amount }) => sum.plus(amount), new Decimal(0));
  const volume = there.reduce(
    (sum, { amount, drySpecificGravity = assumedDryGravity }) =>
      sum.plus(amount.div(drySpecificGravity)),
    new Decimal(0),
  );
  const assumed = there.filter(({ drySpecificGravity }) => !drySpecificGravity).length;
  // One gravity for all is that gravity, without a division's last digit.
  const value = assumed === there.length ? assumedDryGravity : mass.div(volume);
  return { value, assumed };
}

/** What a dry gravity stands on, in words: what was on record and what was assumed. */
export function dryGravityWords(powders: readonly PowderAmount[]): string {
  const { value, assumed } = dryGravityOf(powders);
  const there = powders.filter(({ amount }) => amount.gt(0)).length;
  if (assumed === there)
    return `The dry gravity of no powder is on record: ${assumedDryGravity} is assumed of each.`;
  const dry = `The dry powder's specific gravity is ${value.toDecimalPlaces(3)}`;
  return assumed === 0
    ? `${dry}.`
    : `${dry}, with ${assumedDryGravity} assumed of ${assumed} of its ${there} powders.`;
}

/** What is wrong with a stirred slurry's gravity for a blend by volume. */
export const faultsOfGravity = (specificGravity: Decimal, path: string): Fault[] =>
  faultsOfSlurry({
    specificGravity,
    drySpecificGravity: assumedDryGravity,
    litres: new Decimal(1),
  }).map(({ says }) => ({ path, says }));

/**
 * How many bases of 100 g a litre of a corner's slurry holds: what a share by volume brings of that
 * corner. A thicker slurry brings more of itself; its additions take their part of the dry weight.
 *
 * Worked number: with S 2.65 a litre of gravity 1.45 has 450 × 2.65/1.65 = 722.7 g dry. A corner of
 * base 100 with additions of 4 is 6.949 bases of 100 g in it.
 */
export function basesInLitre(lines: readonly SlurriedLine[], specificGravity: Decimal): Decimal {
  const { value } = dryGravityOf(lines);
  const { dryGrams } = slurryOf({
    specificGravity,
    drySpecificGravity: value,
    litres: new Decimal(1),
  });
  const total = lines.reduce((sum, { amount }) => sum.plus(amount), new Decimal(0));
  return new Decimal(dryGrams).times(baseTotal(lines)).div(total).div(100);
}
