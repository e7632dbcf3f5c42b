import { z } from "zod";
import { decimalText, idempotencyKey } from "./fields.ts";
import { sourceFields } from "./lines-source.ts";

const fill = z.strictObject({
  litres: decimalText,
  specificGravity: decimalText,
  drySpecificGravity: decimalText.optional(),
});

/** POST /batch: nothing of it is stored. What is too much or too little is for chem to say. */
export const batchBody = z
  .object({
    ...sourceFields,
    grams: decimalText.optional(),
    fill: fill.optional(),
    drySpecificGravity: decimalText.optional(),
    scaleGrams: decimalText,
    idempotencyKey,
  })
  .refine(({ grams, fill: filled }) => grams !== undefined || filled !== undefined, {
    error: "The grams of base are needed, or what to fill.",
    path: ["grams"],
  })
  .refine(({ grams, fill: filled }) => grams === undefined || filled === undefined, {
    error: "Give grams or what to fill, not both.",
    path: ["fill"],
  });

export type BatchBody = z.output<typeof batchBody>;
