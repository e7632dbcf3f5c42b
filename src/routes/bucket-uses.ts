import { Hono } from "hono";
import { z } from "zod";
import { UsesPage } from "../../views/scan/uses.tsx";
import {
  addBucketUse,
  findBucketUse,
  listOwnUses,
  type OwnUse,
  undoBucketUse,
} from "../db/bucket-uses.ts";
import { findBucket } from "../db/buckets.ts";
import { openRecallsOfBuckets } from "../db/open-recalls.ts";
import { answer, created, onTo, wantsJson } from "../wire/answers.tsx";
import { check, readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { scanPath } from "./bucket-label.ts";
import { scanOf, scanSheet } from "./bucket-scan-sheet.ts";
import { mayUndoUse, useRefused } from "./bucket-use-rules.ts";

export const bucketUses = new Hono<Env>();

const useBody = z.strictObject({ what: line(200, 0).default(""), idempotencyKey });
const listed = z.object({
  after: z.uuid({ error: "This is not a place in the list." }).optional(),
});

bucketUses.get(
  "/uses",
  described({ says: "What you glazed with the shared buckets, newest first", query: listed }),
  memberRequired,
  async (c) => {
    const read = check(listed, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { db } = c.var;
    const asked = { by: memberOf(c).id, after: read.value.after, limit: 100 };
    const { items, next } = await listOwnUses(db, asked);
    const uses = await withRecalls(c, items);
    return answer(c, {
      json: () => ({ items: uses, next }),
      page: { title: "What you used", here: "account" },
      view: () => UsesPage({ uses, next }),
    });
  },
);

bucketUses.post(
  "/buckets/:id/uses",
  described({
    says: "Tick that you glaze with a bucket, so that a recall of it reaches you",
    body: useBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader, now } = c.var;
    const bucket = await findBucket(db, { id: c.req.param("id"), reader, now });
    if (!bucket) return notFound(c);
    const read = await readBody(c, useBody);
    const typed = typedText(read.typed, "what");
    const again = async () => scanOf(c, bucket);
    if (read.kind === "refused")
      return faulty(c, read, scanSheet(c, await again(), typed, read.faults));
    const says = useRefused(bucket);
    if (says) {
      const faults = [{ path: "", says }];
      return faulty(c, { faults }, scanSheet(c, await again(), typed, faults));
    }
    const given = { bucketId: bucket.id, what: read.value.what };
    const use = await findBucketUse(db, await addBucketUse(db, { ...given, ...actOf(c) }));
    return created(c, `${scanPath(bucket.id)}#used`, use && { ...use, bucket: bucket.id });
  },
);

const undo = async (c: Ctx) => {
  const use = await findBucketUse(c.var.db, c.req.param("id") ?? "");
  const isOwn = use?.by.id === memberOf(c).id;
  if (!use || (!isOwn && memberOf(c).role !== "manager")) return notFound(c);
  if (!mayUndoUse(c, use)) return notAllowed(c, "You take it back within a day. Ask a manager.");
  const { id, bucketId } = use;
  await undoBucketUse(c.var.db, { id, bucketId, ...actOf(c) });
  return wantsJson(c) ? c.body(null, 204) : onTo(c, isOwn ? scanPath(bucketId) : usesOf(bucketId));
};

const usesOf = (bucketId: string): string => `/buckets/${bucketId}#uses`;

const undoes = described({
  says: "Take back that a bucket was used: whoever ticked it within a day, a manager always",
  status: 204,
});
bucketUses.delete("/bucket-uses/:id", undoes, memberRequired, undo);
bucketUses.post("/bucket-uses/:id/undoing", undoes, memberRequired, undo);

/** Each with the recalls that its bucket is under now: after one, look for what you made with it. */
async function withRecalls(c: Ctx, items: readonly OwnUse[]) {
  const recalls = await openRecallsOfBuckets(
    c.var.db,
    items.map(({ bucket }) => bucket.id),
  );
  return items.map((use) => ({
    ...use,
    recalls: (recalls.get(use.bucket.id) ?? []).map(({ id, why }) => ({ id, why })),
  }));
}
