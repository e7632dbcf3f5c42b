import { z } from "zod";
import { type Oxide, oxides } from "../chem/oxides.ts";
import { sentMaterial } from "./chemistry-body.ts";
import { decimalText, idempotencyKey, line, ticked, whole } from "./fields.ts";
import { sourceFields } from "./lines-source.ts";

/** How many materials a glaze may be restated from at a time: more than any shelf, and soon solved. */
export const mostOnShelf = 200;

const moles = decimalText.refine((given) => given.gte(0) && given.lte(1000), {
  error: "Moles for one of flux: a number from 0 to 1000.",
});

const eachOxide = Object.fromEntries(
  oxides.map((oxide) => [oxide, moles.optional()]),
) as unknown as Record<Oxide, z.ZodOptional<typeof moles>>;

const noOxide = z.custom<undefined>(() => false, {
  error: "No oxide is written like this here: SiO2, Al2O3, K2O and so on, iron as Fe2O3.",
});

const percent = decimalText.refine((given) => given.gte(0) && given.lte(100), {
  error: "A percent of the base, from 0 to 100.",
});

/** A form sends one ticked box as a text, several as a list, and none not at all. */
const list = <Each extends z.ZodType>(each: Each) =>
  z.preprocess(
    (sent) => (sent === undefined ? [] : typeof sent === "string" ? [sent] : sent),
    z.array(each).max(mostOnShelf, `At most ${mostOnShelf} of these at a time.`),
  );

/**
 * POST /restate: nothing of it is stored. Bounds, `required` and `forbidden` name materials of the
 * shelf as it does: by slug, or by the name of one that was sent along.
 */
export const restateBody = z.object({
  target: z
    .strictObject({
      ...sourceFields,
      unity: z.object(eachOxide).catchall(noOxide).optional(),
    })
    .refine(({ unity, lines, recipe, text }) => {
      const given = [unity, lines, recipe, text].filter((one) => one !== undefined);
      return given.length === 1;
    }, "Say what to restate: lines, a recipe or a unity formula, and one of them only."),
  shelf: list(sentMaterial),
  /** Every material of the studio that is still sold, beside those named. */
  allSold: ticked.default(false),
  most: whole(0, mostOnShelf).optional(),
  bounds: z
    .record(
      z.string().max(80),
      z
        .strictObject({ least: percent.optional(), most: percent.optional() })
        .refine(({ least, most }) => !least || !most || least.lte(most), {
          error: "The least is not over the most.",
          path: ["least"],
        }),
    )
    .refine((bounds) => Object.keys(bounds).length <= 40, "At most 40 of these.")
    .default({}),
  required: list(line(80)),
  forbidden: list(line(80)),
  loss: z.strictObject({ most: percent }).optional(),
  keepAdditions: ticked.default(true),
  idempotencyKey,
});

export type RestateBody = z.output<typeof restateBody>;
