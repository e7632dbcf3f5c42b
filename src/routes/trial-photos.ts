import { Hono } from "hono";
import { z } from "zod";
import { addTrialPhoto } from "../db/trial-photos.ts";
import { findResultPlace } from "../db/trial-results.ts";
import { changed, created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notFound, refuse } from "../wire/problems.tsx";
import { makePicture } from "../work/pictures.ts";
import { refusalOf } from "./picture-refusals.ts";
import { trialPhotoJson } from "./trial-json.ts";
import { pointSheet, readPoint } from "./trial-points.ts";

export const trialPhotos = new Hono<Env>();

const photoBody = z.strictObject({
  photo: z.instanceof(File, {
    error: "Choose one picture. It is sent as the file “photo” of a multipart form.",
  }),
  alt: line(500, 0).default(""),
  idempotencyKey,
});

trialPhotos.post(
  "/results/:id/photos",
  described({
    says: "Hang a picture on what came of a point: a multipart form with the file `photo`",
    body: photoBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const resultId = c.req.param("id");
    const at = await findResultPlace(db, { id: resultId, reader });
    const place = at && (await readPoint(c, { id: at.trialId, n: at.n }));
    if (!at || !place) return notFound(c);
    const read = await readBody(c, photoBody);
    if (read.kind === "refused")
      return faulty(c, read, await pointSheet(c, place, { faults: read.faults }));
    const { photo, alt } = read.value;
    const made = await makePicture(new Uint8Array(await photo.arrayBuffer()));
    const added =
      made.kind === "made"
        ? await addTrialPhoto(db, { ...at, resultId, picture: made.picture, alt, ...actOf(c) })
        : made;
    if (added.kind !== "added" && added.kind !== "there-already") {
      const { status, title, says } = refusalOf(added);
      const errors = [{ path: "photo", says }];
      const sheet = await pointSheet(c, place, { faults: errors });
      return refuse(c, { status, title, detail: says, errors }, sheet);
    }
    const now = await readPoint(c, { id: at.trialId, n: at.n });
    const hung = now?.point.results.find(({ id }) => id === resultId)?.photos ?? [];
    const one = hung.find(({ id }) => id === added.id);
    const tell = added.kind === "added" ? created : changed;
    return tell(c, `/trials/${at.trialId}/points/${at.n}`, one && trialPhotoJson(one));
  },
);
