import { z } from "zod";
import { greyCardLightness } from "../chem/colour.ts";
import { decimalText, decimalWithin, idempotencyKey } from "../wire/fields.ts";

const figure = (least: number, most: number) =>
  decimalText
    .refine((given) => given.gte(least) && given.lte(most), {
      error: `Between ${least} and ${most}.`.replace("-", "−"),
    })
    .transform((given) => given.toNumber());

const share = decimalWithin(0, 1, 20).transform((given) => given.toNumber());

/** A place in a picture as shares of its width from the left and of its height from the top. */
export const placeInPicture = z.strictObject({ x: share, y: share });

export const neutralLightness = figure(5, 100).default(greyCardLightness);

/** A tile's colour: off an instrument, or read from a picture of it through a neutral patch. */
export const colourBody = z.discriminatedUnion(
  "from",
  [
    z.strictObject({
      from: z.literal("instrument"),
      lab: z.tuple([figure(0, 100), figure(-160, 160), figure(-160, 160)], {
        error: "Three figures: L*, a* and b* under D50.",
      }),
      idempotencyKey,
    }),
    z.strictObject({
      from: z.literal("camera"),
      photo: z.string().max(40),
      neutral: placeInPicture,
      spot: placeInPicture,
      neutralLightness,
      idempotencyKey,
    }),
  ],
  { error: "One of: instrument, camera." },
);
