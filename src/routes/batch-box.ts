import { Decimal } from "decimal.js";
import { batchSheet } from "../chem/batch.ts";
import { gramsOf, inUnit } from "../chem/batch-amounts.ts";
import type { FoundRevision } from "../db/revisions.ts";

const weight = /^\d{1,7}(\.\d{1,4})?$/;

/**
 * The weights for a base of so many grams or pounds, or what is wrong with the number in the box.
 * Pounds go to the nearest step of the scale. With neither it is 100 g, or a quarter of a pound for
 * whoever weighs in pounds.
 */
export function batchBox(
  { lines }: FoundRevision,
  asked: {
    grams?: string | undefined;
    pounds?: string | undefined;
    scaleGrams?: string | undefined;
    usual?: "g" | "lb";
  },
) {
  const { scaleGrams = "0.1" } = asked;
  const typed = inGrams(asked, scaleGrams.trim());
  if (!weight.test(typed.grams) || !weight.test(typed.scaleGrams)) {
    return {
      ...typed,
      sheet: undefined,
      says: "A weight in grams, such as 500, or in pounds, such as 1.5, and a scale's step in grams, such as 0.1.",
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

/** What was typed, in both units: a weight that was given in one is worked out in the other. */
function inGrams({ grams, pounds, usual }: Parameters<typeof batchBox>[1], scaleGrams: string) {
  const inPounds =
    grams === undefined ? (pounds ?? (usual === "lb" ? "0.25" : undefined)) : undefined;
  if (inPounds === undefined) {
    const typed = (grams ?? "100").trim();
    const asPounds = weight.test(typed) ? inUnit(new Decimal(typed), "lb").toFixed() : "";
    return { grams: typed, pounds: asPounds, scaleGrams };
  }
  const typed = inPounds.trim();
  const scale = weight.test(scaleGrams) ? new Decimal(scaleGrams) : new Decimal(0);
  const isWeight = weight.test(typed) && scale.gt(0);
  const asGrams = isWeight ? gramsOf(new Decimal(typed), "lb", scale).toFixed() : "";
  return { grams: asGrams, pounds: typed, scaleGrams };
}
