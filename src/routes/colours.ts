import { Hono } from "hono";
import { addColour, type FoundColour, listColours } from "../db/colours.ts";
import { findTile } from "../db/tiles.ts";
import { answer, created, onTo, wantsJson } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { colourBody } from "./colour-body.ts";
import { colourJson } from "./colour-json.ts";
import { readColour } from "./colour-reading.ts";
import { coloursSheet, photoColourSheet, typedPlace } from "./colour-sheet.ts";
import { tileSheet, withdrawnBefore } from "./tile-sheet.ts";

export const colours = new Hono<Env>();

colours.get(
  "/tiles/:id/colours",
  described({ says: "Everything that was read of a tile's colour, newest first" }),
  readerRequired,
  async (c) => {
    const tile = await findTheTile(c);
    if (!tile) return notFound(c);
    const read = (await listColours(c.var.db, [tile.id])).get(tile.id) ?? [];
    const json = () => ({ items: read.toReversed().map(colourJson) });
    return answer(c, { json, ...(await coloursSheet(c, tile)) });
  },
);

colours.post(
  "/tiles/:id/colours",
  described({
    says: "Put a tile's colour on record: L*a*b* off an instrument, or read from its picture through a neutral patch",
    body: colourBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const tile = await findTheTile(c);
    if (!tile) return notFound(c);
    if (!tile.mayChange) return notAllowed(c, notYoursToRead, await tileSheet(c, tile));
    if (tile.withdrawn) return withdrawnBefore(c, tile);
    const read = await readBody(c, colourBody);
    const photo = tile.photos.find(({ id }) => id === read.typed.photo);
    const again = async (faults: readonly Fault[]) =>
      photo && read.typed.from === "camera"
        ? photoColourSheet(tile, photo, {
            neutral: typedPlace(read.typed, "neutral"),
            spot: typedPlace(read.typed, "spot"),
            neutralLightness: typedText(read.typed, "neutralLightness"),
            faults,
          })
        : await coloursSheet(c, tile, { faults, typed: read.typed });
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));

    const act = { tileId: tile.id, ...actOf(c) };
    if (read.value.from === "instrument") {
      const [lightness, a, b] = read.value.lab;
      const added = await addColour(c.var.db, {
        ...act,
        from: "instrument",
        lab: { lightness, a, b },
      });
      return told(c, tile.id, added.id);
    }
    if (!photo) {
      const faults = [{ path: "photo", says: "There is no such picture of this tile." }];
      return faulty(c, { faults }, await again(faults));
    }
    const reading = await readColour(c, photo, read.value);
    if (reading.kind === "faulty") return faulty(c, reading, await again(reading.faults));
    const { neutralLightness } = read.value;
    const added = await addColour(c.var.db, {
      ...{ ...act, neutralLightness, lab: reading.lab },
      ...{ from: "camera", photoId: photo.id },
    });
    return told(c, tile.id, added.id, {
      neutralLightness,
      assumed: read.typed.neutralLightness === undefined,
    });
  },
);

async function told(c: Ctx, tileId: string, id: string, more: object = {}) {
  const at = `/tiles/${tileId}/colours`;
  if (!wantsJson(c)) return onTo(c, at);
  const kept = (await listColours(c.var.db, [tileId])).get(tileId) ?? [];
  const colour: FoundColour | undefined = kept.find((each) => each.id === id);
  return created(c, at, colour && { ...colourJson(colour), ...more });
}

const notYoursToRead =
  "Who added the tile, the recipe's owner or a manager can put its colour on record. Fire a tile of your own, or tell one of them what you measured.";

const findTheTile = (c: Ctx) =>
  findTile(c.var.db, { id: c.req.param("id") ?? "", reader: c.var.viewer });
