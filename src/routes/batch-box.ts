import { Decimal } from "decimal.js";
import { batchSheet } from "../chem/batch.ts";
import type { FoundRevision } from "../db/revisions.ts";

const weight = /^\d{1,7}(\.\d{1,4})?$/;

/** The weights for a base of so many grams, or what is wrong with the number in the box. */
export function batchBox(
  { lines }: FoundRevision,
  asked: { grams?: string | undefined; scaleGrams?: string | undefined },
) {
  const { grams = "100", scaleGrams = "0.1" } = asked;
  const typed = { grams: grams.trim(), scaleGrams: scaleGrams.trim() };
  if (!weight.test(typed.grams) || !weight.test(typed.scaleGrams)) {
    return {
      ...typed,
      sheet: undefined,
      says: "A weight in grams, such as 500, and a scale's step, such as 0.1.",
    };
  }
  const order = {
    lines,
    grams: new Decimal(typed.grams),
    scaleGrams: new Decimal(typed.scaleGrams),
  };
  const sheet = batchSheet(order);
  return sheet.kind === "sheet"
    ? { ...typed, sheet, says: undefined }
    : { ...typed, sheet: undefined, says: sheet.faults.map(({ says }) => says).join(" ") };
}
