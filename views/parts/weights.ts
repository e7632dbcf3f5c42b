import type { Decimal } from "decimal.js";
import type { Part } from "../../src/chem/lines.ts";
import { ouncesColumn, ouncesOf, poundsAndOunces } from "../../src/chem/pounds.ts";
import { pageReading } from "./reading.ts";

/** Whether pounds and ounces stand beside the grams that are weighed. */
export const besideGrams = (): boolean => pageReading().weight === "lb";

/** A weight as "1 lb 1.637 oz", or "1.637 oz" under a pound. */
export const poundsOf = (grams: Decimal): string => poundsWords(ouncesOf(grams));

/** A column of weights in pounds and ounces that adds up as it is printed. */
export const poundsColumn = (grams: readonly Decimal[]): string[] =>
  ouncesColumn(grams).map(poundsWords);

/**
 * The same for lines in the order of a recipe, where a table has the base before its additions: the
 * base adds up to its own total, and with the additions to that of all.
 */
export function poundsByPart(lines: readonly { part: Part; grams: Decimal }[]): string[] {
  const base = lines.filter(({ part }) => part === "base");
  const printed = [...base, ...lines.filter(({ part }) => part === "addition")];
  const column = poundsColumn(printed.map(({ grams }) => grams));
  return lines.map((line) => column[printed.indexOf(line)] ?? "");
}

const poundsWords = (all: Decimal): string => {
  const { pounds, ounces } = poundsAndOunces(all);
  const rest = `${ounces.toFixed(3)} oz`;
  return pounds.isZero() ? rest : `${pounds.toFixed()} lb ${rest}`;
};
