import { Hono } from "hono";
import { z } from "zod";
import { addPhoto, findPicture, masterWidth, pictureType, pictureWidths } from "../db/pictures.ts";
import { findTile } from "../db/tiles.ts";
import { changed, created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { faulty, notAllowed, notFound, refuse } from "../wire/problems.tsx";
import { makePicture } from "../work/pictures.ts";
import { refusalOf } from "./picture-refusals.ts";
import { photoJson } from "./tile-json.ts";
import { tileSheet, withdrawnBefore } from "./tile-sheet.ts";

export const photos = new Hono<Env>();

const photoBody = z.strictObject({
  /** The form offers the camera and the library as two fields of one name; one of them stays empty. */
  photo: z.preprocess(
    (sent) => (Array.isArray(sent) && sent.length === 1 ? sent[0] : sent),
    z.instanceof(File, {
      error: ({ input }) =>
        Array.isArray(input) && input.length > 1
          ? "Those are two pictures. Send one at a time."
          : "Choose one picture. It is sent as the file “photo” of a multipart form.",
    }),
  ),
  alt: line(500, 0).default(""),
  idempotencyKey,
});

photos.post(
  "/tiles/:id/photos",
  described({
    says: "Hang a picture on a tile: a multipart form with the file `photo`",
    body: photoBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db, viewer } = c.var;
    const tile = await findTile(db, { id: c.req.param("id"), reader: viewer });
    if (!tile) return notFound(c);
    if (!tile.mayChange) return notAllowed(c, notYoursToPicture, await tileSheet(c, tile));
    if (tile.withdrawn) return withdrawnBefore(c, tile);
    const read = await readBody(c, photoBody);
    if (read.kind === "refused") {
      return faulty(c, read, await tileSheet(c, tile, { faults: read.faults, typed: {} }));
    }

    const { photo, alt } = read.value;
    const made = await makePicture(new Uint8Array(await photo.arrayBuffer()));
    const added =
      made.kind === "made"
        ? await addPhoto(db, { tileId: tile.id, picture: made.picture, alt, ...actOf(c) })
        : made;

    if (added.kind !== "added" && added.kind !== "there-already") {
      const { status, title, says } = refusalOf(added);
      const errors = [{ path: "photo", says }];
      const sheet = await tileSheet(c, tile, { faults: errors, typed: { alt } });
      return refuse(c, { status, title, detail: says, errors }, sheet);
    }
    const { photos: hung = [] } = (await findTile(db, { id: tile.id, reader: viewer })) ?? {};
    const one = hung.find(({ id }) => id === added.id);
    const tell = added.kind === "added" ? created : changed;
    return tell(c, `/tiles/${tile.id}`, one && photoJson(one));
  },
);

const notYoursToPicture =
  "Who added the tile, the recipe's owner or a manager can add pictures of it. Put your own tile of this recipe on record instead, with your picture.";

/** The widths that a picture can be asked for in. */
export const widthOf: Record<string, (typeof pictureWidths)[number] | typeof masterWidth> = {
  ...Object.fromEntries(pictureWidths.map((width) => [String(width), width])),
  full: masterWidth,
};

photos.get(
  "/photos/:sha256/:width{200|600|1200|full}",
  described({ says: "A picture at one of its widths, or in full" }),
  readerRequired,
  async (c) => {
    const { sha256, width: asked } = c.req.param();
    const width = widthOf[asked];
    if (width === undefined) return notFound(c);
    const picture = await findPicture(c.var.db, { sha256, width, reader: c.var.viewer });
    switch (picture?.kind) {
      case undefined:
        return notFound(c);
      case "removed":
        return refuse(c, { status: 410, title: "Removed", detail: removedFor(picture.at) });
      case "found":
        return c.body(new Uint8Array(picture.bytes), 200, {
          "Content-Type": pictureType,
          "Content-Length": String(picture.bytes.length),
          "Cache-Control": "private, immutable, max-age=31536000",
          ETag: `"${sha256}-${asked}"`,
        });
    }
  },
);

const removedFor = (at: Date): string =>
  `A manager had this picture removed on ${at.toISOString().slice(0, 10)}. The tile that it hung on stays on record.`;
