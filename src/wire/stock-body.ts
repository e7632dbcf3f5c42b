import { z } from "zod";
import { decimalWithin, idempotencyKey, text } from "./fields.ts";

const most = 100_000_000;

const grams = decimalWithin(0, most, 4);

/** POST /lots/:id/counts: what was found in it. */
export const countBody = z.strictObject({ grams, why: text(1000, 0).default(""), idempotencyKey });

/** POST /lots/:id/uses. */
export const useBody = z.strictObject({
  grams: grams.refine((used) => used.gt(0), {
    error: "What was taken out: over 0 g, with 4 decimals at most.",
  }),
  why: text(1000),
  idempotencyKey,
});

/** POST /stock/counts: a row without grams was not counted. */
export const countsBody = z.strictObject({
  counts: z.array(z.strictObject({ lot: z.uuid(), grams: grams.optional() })).max(500),
  why: text(1000, 0).default(""),
  idempotencyKey,
});

/** PUT /materials/:slug/stock-line: null, or an empty field, goes back to what follows from use. */
export const stockLineBody = z.strictObject({
  grams: decimalWithin(0, most, 3)
    .nullish()
    .transform((line) => line ?? null),
  idempotencyKey,
});

/** POST /recalls: of a lot or of a bucket. */
export const recallBody = z
  .strictObject({
    lot: z.uuid({ error: "A lot by its id." }).optional(),
    bucket: z.uuid({ error: "A bucket by its id." }).optional(),
    why: text(2000),
    idempotencyKey,
  })
  .refine(({ lot, bucket }) => (lot === undefined) !== (bucket === undefined), {
    error: "Say which lot or which bucket, and not both.",
    path: ["lot"],
  });

/** PUT /recalls/:id/closing. */
export const closingBody = z.strictObject({ done: text(2000), idempotencyKey });
