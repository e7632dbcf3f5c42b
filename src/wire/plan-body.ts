import { z } from "zod";
import { decimalText, idempotencyKey, line, whole } from "./fields.ts";

const fill = z.strictObject({
  litres: decimalText,
  specificGravity: decimalText,
  drySpecificGravity: decimalText.optional(),
});

/** POST /plans. What is too much or too little of a batch is for chem to say. */
export const planBody = z
  .strictObject({
    recipe: line(80),
    /** The head where none is said. */
    revision: whole(1, 1_000_000).optional(),
    grams: decimalText.optional(),
    fill: fill.optional(),
    note: line(500, 0).default(""),
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

export const planEndBody = z.strictObject({ is: z.enum(["mixed", "dropped"]), idempotencyKey });
