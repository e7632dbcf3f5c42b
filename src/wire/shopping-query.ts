import { z } from "zod";
import { currency, decimalText, line, ticked } from "./fields.ts";

const trialGrams = decimalText.refine(
  (grams) => grams.gt(0) && grams.lte(10_000) && grams.decimalPlaces() <= 4,
  "Grams of base a point: over 0 and up to 10000, with four decimals at most.",
);

const trial = z.string().transform((typed, context) => {
  const [id = "", grams, ...more] = typed.split(":");
  const read = grams === undefined ? undefined : trialGrams.safeParse(grams);
  if (z.uuid().safeParse(id).success && more.length === 0 && (read?.success ?? true))
    return { id, grams: read?.data };
  const message = "A trial is its id and grams of base a point, such as id:100.";
  context.addIssue({ code: "custom", message });
  return z.NEVER;
});

/** Several in one, apart by commas, or said several times. */
const list = <Each extends z.ZodType<unknown, string>>(each: Each, most: number) =>
  z
    .union([z.string(), z.array(z.string())])
    .transform((given) => [
      ...new Set(
        [given]
          .flat()
          .flatMap((word) => word.split(","))
          .filter((word) => word !== ""),
      ),
    ])
    .pipe(z.array(each).max(most))
    .default([]);

/** GET /shopping. */
export const shoppingQuery = z.object({
  budget: decimalText
    .refine(
      (most) => most.gt(0) && most.lte(100_000_000) && most.decimalPlaces() <= 4,
      "A budget is more than 0. Leave it out to see what everything costs.",
    )
    .optional(),
  currency: currency.optional(),
  region: line(60).optional(),
  plans: list(z.uuid({ error: "A plan is known by its id." }), 100),
  trials: list(trial, 20),
  /** For trials that say no grams themselves. */
  trialGrams: trialGrams.optional(),
  /** Whether everything is topped up to where it counts as low. */
  low: ticked.default(false),
  format: z.enum(["csv"]).optional(),
});

export type ShoppingAsked = z.output<typeof shoppingQuery>;
