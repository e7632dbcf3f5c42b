import { z } from "zod";
import { weightUnits } from "../chem/batch-amounts.ts";
import { decimalText, idempotencyKey, line, text, ticked, whole } from "./fields.ts";

/** How somebody elsewhere reads a handout: in whose words and measures; else as they read all pages. */
export const handoutFields = {
  region: line(60, 0).optional(),
  weight: z.enum(weightUnits).optional(),
  temperature: z.enum(["C", "F"]).optional(),
  /** Dry base of a tub, in the unit of `weight`. */
  tub: decimalText.optional(),
  format: z.enum(["csv"], { error: "csv, or nothing." }).optional(),
};

export const handoutQuery = z.object(handoutFields);

export const recipeHandoutQuery = z.object({
  ...handoutFields,
  revision: whole(1, 1_000_000).optional(),
});

export type HandoutQuery = z.output<typeof handoutQuery>;

/** The most powders that a reader may give their own analyses of at once. */
export const mostOwn = 20;

/**
 * A powder that the reader can buy, in place of one of the handout's: the sheet's oxides a row, or a
 * formula. A form sends blank rows too; they are left out.
 */
const ownPowder = z.strictObject({
  material: line(80).optional(),
  name: line(80).optional(),
  oxides: text(2000).optional(),
  loss: decimalText.optional(),
  lossPlusMinus: decimalText.optional(),
  formula: line(200).optional(),
  ideal: ticked.optional(),
});

export type OwnPowder = z.output<typeof ownPowder>;

export const ownBody = z.strictObject({
  own: z
    .array(ownPowder, { error: "Choose a powder, and give the analysis of what you can buy." })
    .min(1, "Choose a powder, and give the analysis of what you can buy.")
    .max(mostOwn),
  idempotencyKey,
});

/** What a new link hands out; a recipe's own revision where it is no family's. */
export const recipeHandoutBody = z.strictObject({
  revision: whole(1, 1_000_000).optional(),
  region: line(60, 0).default(""),
});

export const familyHandoutBody = z.strictObject({ region: line(60, 0).default("") });
