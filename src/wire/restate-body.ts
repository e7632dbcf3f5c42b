import type { Decimal } from "decimal.js";
import { z } from "zod";
import { type Oxide, oxides } from "../chem/oxides.ts";
import { holdableModels } from "../chem/restate-means.ts";
import { sentMaterial } from "./chemistry-body.ts";
import {
  currency,
  decimalText,
  decimalWithin,
  idempotencyKey,
  line,
  ticked,
  whole,
} from "./fields.ts";
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

/** What the least is not to be over, where both are given. */
const inOrder = <Ends extends { least?: Decimal | undefined; most?: Decimal | undefined }>({
  least,
  most,
}: Ends) => !least || !most || least.lte(most);
const outOfOrder = { error: "The least is not over the most.", path: ["least"] };

const growth = decimalText.refine((given) => given.gte(0) && given.lte(100), {
  error: "An expansion in 10⁻⁶/K, from 0 to 100.",
});

const held = holdableModels.map(({ id }) => id);

const expansion = z
  .strictObject({
    model: z.string().refine((id) => held.includes(id), {
      error: `One of: ${held.join(", ")}. By another model the factors move with the glass, so that no mix can be held to it.`,
    }),
    least: growth.optional(),
    most: growth.optional(),
  })
  .refine(inOrder, outOfOrder);

/** A form sends one ticked box as a text, several as a list, and none not at all. */
const list = <Each extends z.ZodType>(each: Each) =>
  z.preprocess(
    (sent) => (sent === undefined ? [] : typeof sent === "string" ? [sent] : sent),
    z.array(each).max(mostOnShelf, `At most ${mostOnShelf} of these at a time.`),
  );

const restateFields = z.object({
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
        .refine(inOrder, outOfOrder),
    )
    .refine((bounds) => Object.keys(bounds).length <= 40, "At most 40 of these.")
    .default({}),
  required: list(line(80)),
  forbidden: list(line(80)),
  loss: z.strictObject({ most: percent }).optional(),
  expansion: expansion.optional(),
  /** For a kilogram of the base, in the currency last paid in where none is named. */
  cost: z
    .strictObject({
      most: decimalWithin(0, 10_000_000, 4).optional(),
      currency: currency.optional(),
    })
    .optional(),
  prefer: z.enum(["weight", "loss", "cost", "expansion"]).default("weight"),
  /** Where the powders are to be bought: lines are called by their names there too. */
  region: line(60).optional(),
  /** Which analyses count: those in use, or those of the newest lots. */
  from: z.enum(["inUse", "newestLots"]).default("inUse"),
  keepAdditions: ticked.default(true),
  idempotencyKey,
});

const needsModel = ({ prefer, expansion }: z.output<typeof restateFields>): boolean =>
  prefer !== "expansion" || expansion !== undefined;
const whichModel = { error: "By which model?", path: ["expansion", "model"] };

/**
 * POST /restate: nothing of it is stored. Bounds, `required` and `forbidden` name materials of the
 * shelf as it does: by slug, or by the name of one that was sent along.
 */
export const restateBody = restateFields.refine(needsModel, whichModel);

/** The same from a form: an unticked box is not sent at all, which JSON takes for what is usual. */
export const restateForm = restateFields
  .extend({ keepAdditions: ticked.default(false) })
  .refine(needsModel, whichModel);

export type RestateBody = z.output<typeof restateBody>;
