import { Hono } from "hono";
import { z } from "zod";
import { greyCardLightness } from "../chem/colour.ts";
import { findTile } from "../db/tiles.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { notAllowed, notFound } from "../wire/problems.tsx";
import { labJson } from "./colour-json.ts";
import { readColour } from "./colour-reading.ts";
import { photoColourSheet, shownWidth } from "./colour-sheet.ts";
import { tileSheet, withdrawnBefore } from "./tile-sheet.ts";

export const photoColours = new Hono<Env>();

const asText = z.string().optional();

/** `neutral` and `spot` are shares; `grey` and `glaze` are what a press on the picture sends. */
const pressed = z.object({
  "neutral.x": asText,
  "neutral.y": asText,
  "spot.x": asText,
  "spot.y": asText,
  "grey.x": asText,
  "grey.y": asText,
  "glaze.x": asText,
  "glaze.y": asText,
});

photoColours.get(
  "/tiles/:id/photos/:photo/colour",
  described({
    says: "Read a tile's colour from its picture: press the grey patch, then the glaze; nothing is kept yet",
    query: pressed,
  }),
  memberRequired,
  async (c) => {
    const tile = await findTile(c.var.db, { id: c.req.param("id"), reader: c.var.viewer });
    const photo = tile?.photos.find(({ id }) => id === c.req.param("photo"));
    if (!tile || !photo || photo.removed) return notFound(c);
    if (!tile.mayChange) return notAllowed(c, notYoursToRead, await tileSheet(c, tile));
    if (tile.withdrawn) return withdrawnBefore(c, tile);
    const asked = c.req.query();
    const shownHeight = (shownWidth * photo.height) / photo.width;
    const placeOf = (shares: string, press: string) => {
      const x = shareOf(asked[`${shares}.x`], 1) ?? shareOf(asked[`${press}.x`], shownWidth);
      const y = shareOf(asked[`${shares}.y`], 1) ?? shareOf(asked[`${press}.y`], shownHeight);
      return x === undefined || y === undefined ? undefined : { x, y };
    };
    const neutral = placeOf("neutral", "grey");
    const spot = placeOf("spot", "glaze");
    const reading =
      neutral && spot
        ? await readColour(c, photo, { neutral, spot, neutralLightness: greyCardLightness })
        : undefined;
    const lab = reading?.kind === "read" ? reading.lab : undefined;
    const faults = reading?.kind === "faulty" ? reading.faults : [];
    return answer(c, {
      json: () => ({ photo: photo.id, neutral, spot, lab: lab && labJson(lab), errors: faults }),
      ...photoColourSheet(tile, photo, { neutral, spot, lab, faults }),
    });
  },
);

/** A place on a picture that is `whole` wide or high, as a share of it, to the thousandth. */
function shareOf(typed: string | undefined, whole: number): number | undefined {
  const place = typed ? Number(typed) / whole : Number.NaN;
  if (Number.isNaN(place)) return undefined;
  return Number(Math.min(1, Math.max(0, place)).toFixed(3));
}

const notYoursToRead =
  "Who added the tile, the recipe's owner or a manager can read its colour from a picture.";
