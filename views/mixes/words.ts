import type { Decimal } from "decimal.js";
import type { MixCorrection } from "../../src/chem/mix-correction.ts";

/** A percent as it is said of a weight: "10 % over", "2.5 % under". */
export const offWords = (percent: Decimal): string =>
  `${percent.abs().toSignificantDigits(3).toFixed()} % ${percent.isNegative() ? "under" : "over"}`;

type Named = { material: { name: string } };

type Correction = Exclude<MixCorrection, { kind: "within" }>;

type Slurry = { waterGrams: Decimal; litres: Decimal; fits: boolean } | null;

/** What is off in a mix and what to do about it, a sentence each. */
export function correctionWords(
  lines: readonly Named[],
  correction: Correction,
  slurry: Slurry,
): string[] {
  const name = (line: number) => lines[line]?.material.name ?? "";
  const off = correction.off.map(({ line, percent }) => `${name(line)} is ${offWords(percent)}.`);
  if (correction.kind === "cannot") {
    const names = correction.unplanned.map(name).join(" and ");
    return [...off, `The batch sheet has nothing of ${names}, so no other weight puts it right.`];
  }
  const { factor, totalGrams } = correction;
  const grown = factor.gt(1);
  const say = grown
    ? `What is in does not come out again: bring the batch to ${factor.toSignificantDigits(5).toFixed()} times its size, ${totalGrams.toFixed()} g of powders in all.`
    : "Put in what is missing.";
  return [...off, say, ...(grown ? slurryWords(slurry) : [])];
}

function slurryWords(slurry: Slurry): string[] {
  if (!slurry) return ["The water grows with it."];
  const { waterGrams, litres, fits } = slurry;
  const water = `With ${waterGrams.toFixed()} g of water it makes about ${litres.toFixed(1)} litres`;
  return [fits ? `${water}.` : `${water}: more than this bucket takes.`];
}

/** Whether the glaze is still the one that was approved, as it is now in the bucket. */
export const chemistryWords = (moves: readonly string[]): string =>
  moves.length === 0
    ? "As it is now it stays inside what an approval bears."
    : `As it is now it is further from the recipe than an approval bears: ${moves.join("; ")}.`;

/** What stands in for a lot that nobody analysed. */
export const notThisLotWords = (names: readonly string[]): string =>
  `Not this lot's analysis: ${names.join(", ")}. What is in use for the powder stands in, with twice its ±, so the glaze may be off by more than the weights say.`;

export const notDeducted = "not deducted: nobody could tell which bag";

/** A bag as it is spoken of: by its mark, and by who sold it. */
export const lotWords = ({ mark, supplier }: { mark: string; supplier: string }): string =>
  mark ? `${mark}, ${supplier}` : supplier;

const clock = new Intl.DateTimeFormat("en-GB", { timeStyle: "short", timeZone: "UTC" });

/** The time of day, UTC as everywhere. */
export const clockWords = (at: Date): string => `${clock.format(at)} UTC`;
