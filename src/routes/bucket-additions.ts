import { Hono } from "hono";
import { neverOff } from "../chem/bucket-advice.ts";
import { addAddition, listAdditions } from "../db/bucket-additions.ts";
import { findBucket } from "../db/buckets.ts";
import { created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { additionBody } from "./bucket-care-body.ts";
import { additionJson } from "./bucket-care-json.ts";
import { emptyFault, stateOf } from "./bucket-json.ts";
import { bucketSheet } from "./bucket-sheet.ts";

export const bucketAdditions = new Hono<Env>();

bucketAdditions.post(
  "/buckets/:id/additions",
  described({
    says: "Put on record what went into a bucket beside its mixes, or came off it: its own history, never the recipe's",
    body: additionBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader, now } = c.var;
    const bucket = await findBucket(db, { id: c.req.param("id"), reader, now });
    if (!bucket) return notFound(c);
    const read = await readBody(c, additionBody);
    const { typed } = read;
    const again = async (faults: readonly Fault[]) =>
      faulty(c, { faults }, await bucketSheet(c, bucket, { faults, typed }));
    if (read.kind === "refused")
      return faulty(c, read, await bucketSheet(c, bucket, { faults: read.faults, typed }));
    if (stateOf(bucket)?.is === "empty") return again([emptyFault("what")]);

    const { idempotencyKey: _, ...given } = read.value;
    const added = await addAddition(db, { bucketId: bucket.id, ...given, ...actOf(c) });
    switch (added.kind) {
      case "dissolves":
        return again([{ path: "what", says: neverOff }]);
      case "added": {
        const [newest] = await listAdditions(db, { bucketId: bucket.id, limit: 1 });
        const place = `/buckets/${bucket.id}#additions`;
        return created(c, place, newest && additionJson(newest));
      }
    }
  },
);
