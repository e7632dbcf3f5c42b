import { z } from "zod";
import type { GivenSheet } from "../db/bodies.ts";
import { decimalWithin, idempotencyKey, line, text, whole } from "./fields.ts";
import { coneRange } from "./recipe-body.ts";

const absorption = z.strictObject({ percent: decimalWithin(0, 40, 3), source: line(300) });

const expansion = z
  .strictObject({
    value: decimalWithin(0, 30, 3),
    fromCelsius: whole(-50, 1000),
    toCelsius: whole(-49, 1300),
    source: line(300),
  })
  .refine(({ fromCelsius, toCelsius }) => fromCelsius < toCelsius, {
    error: "The range ends at a higher temperature than it begins.",
    path: ["toCelsius"],
  });

const fields = {
  // Where neither cone was chosen the form sends none, and each is asked for by its own field.
  cones: z.preprocess((typed) => typed ?? {}, coneRange),
  absorption: absorption.optional(),
  expansion: expansion.optional(),
  colour: line(60, 0).default(""),
  about: text(4000, 0).default(""),
};

const sheetFields = z.strictObject({ ...fields, idempotencyKey });

const sheetOf = (typed: Omit<z.output<typeof sheetFields>, "idempotencyKey">): GivenSheet => ({
  cones: typed.cones,
  absorption: typed.absorption ?? null,
  expansion: typed.expansion ?? null,
  colour: typed.colour,
  about: typed.about,
});

/** A further sheet of a body: what is known of it now. */
export const sheetBody = sheetFields.transform(sheetOf);

/** A body with its first sheet. */
export const bodyBody = z
  .strictObject({ name: line(80), ...fields, idempotencyKey })
  .transform(({ name, ...typed }) => ({ name, sheet: sheetOf(typed) }));
