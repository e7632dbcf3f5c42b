import { Decimal } from "decimal.js";
import { z } from "zod";

/** One line of text, trimmed, with between `least` and `most` characters and no control characters. */
export const line = (most: number, least = 1) =>
  z
    .string()
    .trim()
    .normalize("NFC")
    .min(least)
    .max(most)
    .refine((text) => !/\p{Cc}/u.test(text), "One line of plain text, please.");

/** Text of several lines. */
export const text = (most: number, least = 1) =>
  z
    .string()
    .trim()
    .normalize("NFC")
    .transform((typed) => typed.replace(/\r\n?/g, "\n"))
    .pipe(
      z
        .string()
        .min(least)
        .max(most)
        .refine((typed) => !/[^\P{Cc}\n\t]/u.test(typed), "Plain text, please."),
    );

const digits = /^[+-]?\d{1,30}(\.\d{1,30})?$/;

/**
 * A decimal as people type it, `12.5`, or a JSON number. What is not finite or has an exponent is
 * refused; signs and limits are for who uses it to judge.
 */
export const decimalText = z
  .union([z.string().trim(), z.number()], { error: "A number such as 12.5." })
  .transform((typed, context) => {
    const plain = typeof typed === "number" ? new Decimal(typed).toFixed() : typed;
    if (digits.test(plain)) return new Decimal(plain);
    context.addIssue({
      code: "custom",
      message: `“${plain.slice(0, 40)}” is not a number such as 12.5.`,
    });
    return z.NEVER;
  });

/** A decimal between `least` and `most`, with no more than `places` decimals. */
export const decimalWithin = (least: number, most: number, places: number) =>
  decimalText.refine(
    (given) => given.gte(least) && given.lte(most) && given.decimalPlaces() <= places,
    { error: `Between ${least} and ${most}, with ${places} decimals at most.` },
  );

/** A whole number between `least` and `most`. */
export const whole = (least: number, most: number) =>
  decimalText
    .refine((given) => given.isInteger() && given.gte(least) && given.lte(most), {
      error: `A whole number between ${least} and ${most}.`,
    })
    .transform((given) => given.toNumber());

/** `true`, or the `on` of a ticked box. */
export const ticked = z
  .union([z.boolean(), z.enum(["on", "true", "1", "false", "0"])])
  .transform((typed) => typed === true || typed === "on" || typed === "true" || typed === "1");

/** A currency by its three letters, as they stand on a price list. */
export const currency = line(3).transform((typed, context) => {
  const letters = typed.toUpperCase();
  if (/^[A-Z]{3}$/.test(letters)) return letters;
  context.addIssue({ code: "custom", message: "A currency by its three letters, such as GBP." });
  return z.NEVER;
});

/** A calendar day, `2026-03-01`. */
export const day = z.iso.date({ error: "A date such as 2026-03-01." });

/** Sent by forms beside what they are about; the requests that repeat themselves are known by it. */
export const idempotencyKey = z.string().max(200).optional();
