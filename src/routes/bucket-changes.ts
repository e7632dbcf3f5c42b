import { Hono } from "hono";
import { z } from "zod";
import { openBucket } from "../db/bucket-keeping.ts";
import { bucketStates, changeBucket, findBucket } from "../db/buckets.ts";
import { changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { bucketJson } from "./bucket-json.ts";
import { bucketSheet } from "./bucket-sheet.ts";

export const bucketChanges = new Hono<Env>();

const stateBody = z.strictObject({ is: z.enum(bucketStates), why: text(1000), idempotencyKey });

bucketChanges.on(
  ["PUT", "POST"],
  "/buckets/:id/state",
  described({
    says: "Say that a bucket is open, on hold or empty; any member may put one on hold, and a manager opens it once it was mixed and proved",
    body: stateBody,
  }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader, now } = c.var;
    const id = c.req.param("id");
    const bucket = await findBucket(db, { id, reader, now });
    if (!bucket) return notFound(c);
    const read = await readBody(c, stateBody);
    const typed = { why: typedText(read.typed, "why") };
    if (read.kind === "refused")
      return faulty(c, read, await bucketSheet(c, bucket, { faults: read.faults, ...typed }));

    const { is, why } = read.value;
    if (memberOf(c).role !== "manager" && is !== "hold")
      return notAllowed(c, onlyHolding, await bucketSheet(c, bucket));
    const again = async (says: readonly string[]) => {
      const faults = says.map((each) => ({ path: "is", says: each }));
      return faulty(c, { faults }, await bucketSheet(c, bucket, { faults, ...typed }));
    };
    const before = bucket.is;
    if (before === is && is !== "hold") return again([`It is ${is} already.`]);
    if (before === "empty" && is === "hold")
      return again(["It is empty: there is nothing in it to hold."]);

    const change = { bucketId: bucket.id, why, ...actOf(c) };
    if (is === "open") {
      const opened = await openBucket(db, change);
      if (opened.kind === "not-yet") return again(opened.because);
    } else await changeBucket(db, { ...change, is });
    const after = (await findBucket(db, { id, reader, now })) ?? bucket;
    return changed(c, `/buckets/${bucket.id}`, bucketJson(after));
  },
);

const onlyHolding =
  "A manager opens and empties buckets. You can put one on hold, with the reason.";
