import { z } from "zod";
import { currency, decimalText, idempotencyKey, line, text, ticked } from "./fields.ts";

/** Grams of one pack, as the record keeps them. */
export const packGrams = decimalText.refine(
  (grams) => grams.gt(0) && grams.lte(100_000_000) && grams.decimalPlaces() <= 3,
  "Grams of one pack: more than 0, with three decimals at most.",
);

/** What one pack costs, as the record keeps it. */
export const packPrice = decimalText.refine(
  (price) => price.gte(0) && price.lte(10_000_000) && price.decimalPlaces() <= 4,
  "What one pack costs: 0 or more, with four decimals at most.",
);

/** POST /suppliers/:slug/packs. A pack that is no longer sold needs no price. */
export const packBody = z
  .strictObject({
    material: line(80),
    packGrams,
    packPrice: packPrice.optional(),
    currency: currency.optional(),
    stillSold: ticked.default(true),
    idempotencyKey,
  })
  .superRefine((pack, context) => {
    if (!pack.stillSold) return;
    for (const field of ["packPrice", "currency"] as const)
      if (pack[field] === undefined)
        context.addIssue({ code: "custom", path: [field], message: "This is needed." });
  });

/** PUT /suppliers/:slug/terms. */
export const termsBody = z.strictObject({
  region: line(60, 0).default(""),
  carriage: decimalText.refine(
    (price) => price.gte(0) && price.lte(10_000_000) && price.decimalPlaces() <= 4,
    "What sending costs: 0 or more, with four decimals at most.",
  ),
  freeFrom: z
    .union([z.null(), decimalText])
    .refine(
      (most) => most === null || (most.gte(0) && most.lte(10_000_000) && most.decimalPlaces() <= 4),
      "From how much it sends without carriage: 0 or more, or nothing.",
    )
    .default(null),
  currency,
  idempotencyKey,
});

/** POST /suppliers/:slug/price-list: a powder, grams of a pack and its price on each line. */
export const priceListBody = z.strictObject({ text: text(60_000), currency, idempotencyKey });
