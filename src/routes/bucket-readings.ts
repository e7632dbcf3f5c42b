import { Hono } from "hono";
import { z } from "zod";
import { ReadingsPage } from "../../views/buckets/readings-page.tsx";
import { findBucketPowders } from "../db/bucket-powders.ts";
import { addReading, listReadings } from "../db/bucket-readings.ts";
import { findBucket } from "../db/buckets.ts";
import { answer, created } from "../wire/answers.tsx";
import { check, readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { careOf, weighed } from "./bucket-care.ts";
import { readingBody } from "./bucket-care-body.ts";
import { readingJson } from "./bucket-care-json.ts";
import { emptyFault, stateOf } from "./bucket-json.ts";
import { bucketSheet } from "./bucket-sheet.ts";

export const bucketReadings = new Hono<Env>();

const listed = z.object({
  after: z.uuid({ error: "This is not a place in the list." }).optional(),
});

bucketReadings.get(
  "/buckets/:id/readings",
  described({ says: "What was measured of a bucket, newest first", query: listed }),
  memberRequired,
  async (c) => {
    const bucket = await bucketOf(c);
    if (!bucket) return notFound(c);
    const read = check(listed, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { db } = c.var;
    const asked = { bucketId: bucket.id, after: read.value.after, limit: 100 };
    const { items, next } = await listReadings(db, asked);
    const powders = (await findBucketPowders(db, [bucket.id])).get(bucket.id);
    const readings = powders ? items.map((reading) => weighed(reading, powders)) : [];
    return answer(c, {
      json: () => ({ items: readings.map(readingJson), next }),
      page: { title: `Readings of ${bucket.name}`, here: "buckets" },
      view: () => ReadingsPage({ bucket, readings, next }),
    });
  },
);

bucketReadings.post(
  "/buckets/:id/readings",
  described({
    says: "Put on record what was measured of a bucket; answers what to do",
    body: readingBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const bucket = await bucketOf(c);
    if (!bucket) return notFound(c);
    const read = await readBody(c, readingBody);
    const { typed } = read;
    if (read.kind === "refused")
      return faulty(c, read, await bucketSheet(c, bucket, { faults: read.faults, typed }));
    if (stateOf(bucket)?.is === "empty") {
      const faults = [emptyFault("specificGravity")];
      return faulty(c, { faults }, await bucketSheet(c, bucket, { faults, typed }));
    }

    const { idempotencyKey: _, celsius, flowSeconds, coatMm, ...measured } = read.value;
    const orNull = {
      celsius: celsius ?? null,
      flowSeconds: flowSeconds ?? null,
      coatMm: coatMm ?? null,
    };
    await addReading(c.var.db, { bucketId: bucket.id, ...measured, ...orNull, ...actOf(c) });
    const { readings, advice } = await careOf(c, bucket);
    const [newest] = readings;
    const json = newest && { ...readingJson(newest), advice };
    return created(c, `/buckets/${bucket.id}#readings`, json);
  },
);

const bucketOf = (c: Ctx) => {
  const { db, viewer: reader, now } = c.var;
  return findBucket(db, { id: c.req.param("id") ?? "", reader, now });
};
