import { Hono } from "hono";
import { findBucket } from "../db/buckets.ts";
import { openMix } from "../db/mix-opening.ts";
import { findMix } from "../db/mixes.ts";
import { answer, created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { mixBody } from "../wire/mix-body.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { standsAs } from "./bucket-json.ts";
import { bucketSheet } from "./bucket-sheet.ts";
import { mixJson } from "./mix-json.ts";
import { mixAt, mixPage, sheetOf } from "./mix-sheet.ts";

export const mixes = new Hono<Env>();

mixes.post(
  "/buckets/:id/mixes",
  described({
    says: "Open a mix of a bucket's revision, by the weight of its base or to fill so many litres",
    body: mixBody,
    status: 201,
  }),
  managerRequired,
  async (c) => {
    const { db, viewer: reader, now, studio } = c.var;
    const bucket = await findBucket(db, { id: c.req.param("id"), reader, now });
    if (!bucket) return notFound(c);
    const read = await readBody(c, mixBody);
    const typed = {
      grams: typedText(read.typed, "grams"),
      litres: typedText(read.typed, "fill.litres"),
      specificGravity: typedText(read.typed, "fill.specificGravity"),
      scaleGrams: typedText(read.typed, "scaleGrams"),
    };
    const again = (faults: readonly Fault[]) => bucketSheet(c, bucket, { faults, mix: typed });
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));

    const { grams, fill, scaleGrams = studio.scaleGrams } = read.value;
    const opened = await openMix(db, {
      bucketId: bucket.id,
      grams,
      fill,
      scaleGrams,
      ...actOf(c),
    });
    switch (opened.kind) {
      case "refused":
        return faulty(c, opened, await again(opened.faults));
      case "open-already": {
        const mix = await findMix(db, { id: opened.id, reader });
        const detail = `${mix?.by.name ?? "Somebody"} has a mix of this bucket open. Finish it or give it up first.`;
        const more = { mix: { id: opened.id, href: `/mixes/${opened.id}` } };
        const faults = [{ path: "", says: detail }];
        return refuse(c, { status: 409, title: "Open already", detail, more }, await again(faults));
      }
      case "recalled": {
        const detail = `This bucket is recalled: nothing is mixed into it. ${opened.why}`;
        const faults = [{ path: "", says: detail }];
        return refuse(c, { status: 409, title: "Recalled", detail }, await again(faults));
      }
      case "not-approved": {
        const detail = `Revision ${bucket.number} of ${bucket.recipe.name} ${standsAs[opened.is]}: nothing of it is mixed for members until it is approved. For trying it out, put a test bucket on record.`;
        const faults = [{ path: "", says: detail }];
        return refuse(c, { status: 409, title: "Not approved", detail }, await again(faults));
      }
      case "opened": {
        const mix = await findMix(db, { id: opened.id, reader });
        return created(c, `/mixes/${opened.id}`, mix && mixJson(await sheetOf(c, mix)));
      }
    }
  },
);

mixes.get(
  "/mixes/:id",
  described({ says: "A mix: what to weigh, what is in, and how to put right what is off" }),
  memberRequired,
  async (c) => {
    const mix = await mixAt(c);
    if (!mix) return notFound(c);
    const sheet = await sheetOf(c, mix);
    return answer(c, { json: () => mixJson(sheet), ...(await mixPage(c, sheet)) });
  },
);
