import { z } from "zod";
import {
  tileApplications,
  tileAtmospheres,
  tileDefects,
  tileMovements,
  tileTransparencies,
} from "../db/tiles.ts";
import {
  day,
  decimalText,
  decimalWithin,
  idempotencyKey,
  line,
  text,
  whole,
} from "../wire/fields.ts";
import { cone } from "../wire/recipe-body.ts";

export const revisionNumber = z.coerce
  .number({ error: "The number of a revision, such as 2." })
  .int("The number of a revision, such as 2.")
  .min(1, "The first revision is 1.")
  .max(1_000_000);

const defect = z.enum(tileDefects);

/** A fired tile as people put it on record. */
export const tileBody = z.strictObject({
  revision: revisionNumber,
  cone,
  firing: line(40).optional(),
  atmosphere: z.enum(tileAtmospheres).optional(),
  firedOn: day.refine((on) => on >= "1900-01-01", "A day since 1900.").optional(),
  body: line(80).optional(),
  clay: line(80, 0).default(""),
  bisqueCone: cone.optional(),
  thicknessMm: decimalText
    .refine(
      (mm) => mm.gt(0) && mm.lte(20) && mm.decimalPlaces() <= 2,
      "Millimetres over 0 and up to 20, such as 0.8.",
    )
    .optional(),
  place: line(80, 0).default(""),
  over: line(100)
    .regex(/^[a-z0-9-]+@[1-9]\d{0,6}$/, "A recipe and its revision, such as slack-water@3.")
    .optional(),
  outcome: z
    .strictObject({
      surface: line(60, 0).default(""),
      transparency: z.enum(tileTransparencies).optional(),
      movement: z.enum(tileMovements).optional(),
    })
    .default({ surface: "" }),
  application: z.enum(tileApplications).optional(),
  seconds: decimalText
    .refine(
      (given) => given.gt(0) && given.lte(600) && given.decimalPlaces() <= 1,
      "Seconds over 0 and up to 600, such as 3 or 2.5.",
    )
    .optional(),
  coats: whole(1, 20).optional(),
  specificGravity: decimalWithin(1, 3, 3).optional(),
  beside: line(300, 0).default(""),
  /** Of which it is a proof tile. */
  bucket: line(40).optional(),
  /** One ticked box of a form arrives by itself. */
  defects: z
    .union([z.array(defect).max(tileDefects.length), defect.transform((one) => [one])], {
      error: `Any of: ${tileDefects.join(", ")}.`,
    })
    .default([]),
  remark: text(2000, 0).default(""),
  idempotencyKey,
});

export type TileBody = z.output<typeof tileBody>;
