import type { Decimal } from "decimal.js";
import { z } from "zod";
import { additiveUnits, bucketAdditives } from "../db/bucket-additions.ts";
import { bucketTroubles } from "../db/bucket-reports.ts";
import {
  decimalText,
  decimalWithin,
  idempotencyKey,
  line,
  text,
  ticked,
  whole,
} from "../wire/fields.ts";
import { cone } from "../wire/recipe-body.ts";

/** Over 0, up to `most`, with `places` decimals at most. */
const over0 = (most: number, places: number, says: string) =>
  decimalText.refine(
    (given) => given.gt(0) && given.lte(most) && given.decimalPlaces() <= places,
    says,
  );

const gravity = decimalWithin(1, 3, 3);
const litres = over0(10_000, 3, "Litres above 0 and up to 10000, with three decimals at most.");
const flowSeconds = over0(3600, 1, "Seconds over 0 and up to 3600, such as 32 or 32.5.");

/** POST /buckets/:id/readings. */
export const readingBody = z.strictObject({
  specificGravity: gravity,
  litres,
  celsius: decimalWithin(-20, 60, 1).optional(),
  flowSeconds: flowSeconds.optional(),
  coatMm: over0(20, 2, "Millimetres over 0 and up to 20, such as 0.8.").optional(),
  stirred: ticked.default(false),
  note: text(1000, 0).default(""),
  idempotencyKey,
});

/** POST /rounds/ticks: what somebody saw on the way past a bucket. */
export const roundTickBody = z
  .strictObject({
    bucket: z.uuid({ error: "The id of a bucket." }),
    stirred: ticked.default(false),
    specificGravity: gravity.optional(),
    litres: litres.optional(),
    flowSeconds: flowSeconds.optional(),
    note: text(1000, 0).default(""),
    idempotencyKey,
  })
  .refine((tick) => tick.specificGravity === undefined || tick.litres !== undefined, {
    error: "With a gravity, say how many litres: what to put in follows from both.",
    path: ["litres"],
  });

/** POST /buckets/:id/additions. */
export const additionBody = z.strictObject({
  what: z.enum(bucketAdditives),
  named: line(80, 0).default(""),
  amount: over0(1_000_000, 3, "An amount over 0, with three decimals at most, such as 12.5."),
  unit: z.enum(additiveUnits),
  idempotencyKey,
});

/** POST /buckets/:id/reports. */
export const reportBody = z.strictObject({
  trouble: z.enum(bucketTroubles),
  note: text(1000, 0).default(""),
  idempotencyKey,
});

/** PUT /bucket-reports/:id/answer. */
export const reportAnswerBody = z.strictObject({ done: text(1000), idempotencyKey });

/** Two ends of which the first is not over the second. */
const band = (end: z.ZodType<Decimal>) =>
  z.strictObject({ low: end, high: end }).refine(({ low, high }) => low.lte(high), {
    error: "The lower end comes first.",
    path: ["high"],
  });

const aboveWater = gravity.refine(
  (given) => given.gt(1),
  "No glaze is as thin as water: above 1, such as 1.45.",
);

/** PUT /buckets/:id/directions: how a bucket should be and how to use it, all of it anew. */
export const directionsBody = z.strictObject({
  gravity: band(aboveWater).optional(),
  flow: band(decimalWithin(0, 3600, 1)).optional(),
  coat: band(decimalWithin(0, 20, 2)).optional(),
  body: line(80).optional(),
  bisqueCone: cone.optional(),
  dipSeconds: over0(600, 1, "Seconds over 0 and up to 600, such as 3 or 2.5.").optional(),
  coats: whole(1, 20).optional(),
  footMm: decimalWithin(0, 200, 1).optional(),
  catchDish: ticked.default(false),
  sieve: line(80, 0).default(""),
  stirring: line(200, 0).default(""),
  keepsMonths: whole(1, 240).optional(),
  ask: line(120, 0).default(""),
  idempotencyKey,
});
