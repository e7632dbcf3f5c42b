import { z } from "zod";
import { decimalText, decimalWithin, idempotencyKey, line, text, ticked } from "./fields.ts";

const fill = z.strictObject({
  litres: decimalText,
  specificGravity: decimalText,
  drySpecificGravity: decimalText.optional(),
});

/** POST /buckets/:id/mixes. What is too much or too little of a batch is for chem to say. */
export const mixBody = z
  .strictObject({
    grams: decimalText.optional(),
    fill: fill.optional(),
    scaleGrams: decimalText
      .refine((step) => step.decimalPlaces() <= 4, "A scale's step with four decimals at most.")
      .optional(),
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

/** Made by whoever sends it, once for each tick. */
const key = line(80, 8);

/** Whose it is, where it waited in a browser in which somebody else may be signed in by then. */
const person = z.uuid().optional();

/** PUT /mixes/:id/lines/:n. A form that has lots to choose from sends `none` where nobody could tell. */
export const tickBody = z.strictObject({
  grams: decimalText.refine(
    (grams) => grams.gt(0) && grams.lte(1_000_000) && grams.decimalPlaces() <= 4,
    "What went in: over 0 and up to 1000000 g, with four decimals at most.",
  ),
  lot: z
    .union([z.literal("none").transform(() => undefined), z.uuid()], {
      error: "One of this material's lots, or none.",
    })
    .optional(),
  key,
  adds: ticked.default(false),
  person,
});

/** DELETE /mixes/:id/lines/:n: the tick of that key, or the newest that stands. */
export const undoBody = z.strictObject({ key: key.optional(), person });

export const finishBody = z.strictObject({
  waterGrams: decimalWithin(0, 10_000_000, 1),
  idempotencyKey,
});

export const givingUpBody = z.strictObject({ why: text(1000), idempotencyKey });
