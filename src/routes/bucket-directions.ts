import { Hono } from "hono";
import { DirectionsPage } from "../../views/buckets/directions-page.tsx";
import { findBody, listBodies } from "../db/bodies.ts";
import { listDirections, setDirections } from "../db/bucket-directions.ts";
import { type FoundBucket, findBucket } from "../db/buckets.ts";
import { answer, changed } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { directionsBody } from "./bucket-care-body.ts";
import { directionsJson } from "./bucket-care-json.ts";

export const bucketDirections = new Hono<Env>();

bucketDirections.get(
  "/buckets/:id/directions",
  described({
    says: "How a bucket should be and how to use it, with what was said before; for managers the form",
  }),
  memberRequired,
  async (c) => {
    const bucket = await bucketOf(c);
    if (!bucket) return notFound(c);
    const said = await listDirections(c.var.db, bucket.id);
    const [now, ...earlier] = said.map(directionsJson);
    const typed = now ? { ...now, body: now.body?.slug } : {};
    return answer(c, {
      json: () => ({ directions: now ?? null, earlier }),
      ...(await sheet(c, bucket, typed, [])),
    });
  },
);

bucketDirections.on(
  ["PUT", "POST"],
  "/buckets/:id/directions",
  described({
    says: "Say how a bucket should be and how to use it, in place of what was said before",
    body: directionsBody,
  }),
  managerRequired,
  async (c) => {
    const bucket = await bucketOf(c);
    if (!bucket) return notFound(c);
    const { db } = c.var;
    const read = await readBody(c, directionsBody);
    if (read.kind === "refused")
      return faulty(c, read, await sheet(c, bucket, read.typed, read.faults));

    const { idempotencyKey: _, body: slug, ...said } = read.value;
    const body = slug === undefined ? null : await findBody(db, { slug });
    if (body === undefined) {
      const faults = [{ path: "body", says: `There is no body at “${slug}”.` }];
      return faulty(c, { faults }, await sheet(c, bucket, read.typed, faults));
    }
    const { catchDish, sieve, stirring, ask } = said;
    await setDirections(db, {
      ...{ bucketId: bucket.id, bodyId: body?.id ?? null, catchDish, sieve, stirring, ask },
      gravity: said.gravity ?? null,
      flow: said.flow ?? null,
      coat: said.coat ?? null,
      bisqueCone: said.bisqueCone ?? null,
      dipSeconds: said.dipSeconds ?? null,
      coats: said.coats ?? null,
      footMm: said.footMm ?? null,
      keepsMonths: said.keepsMonths ?? null,
      ...actOf(c),
    });
    const [now] = await listDirections(db, bucket.id);
    return changed(c, `/buckets/${bucket.id}#directions`, now && directionsJson(now));
  },
);

const bucketOf = (c: Ctx) => {
  const { db, viewer: reader, now } = c.var;
  return findBucket(db, { id: c.req.param("id") ?? "", reader, now });
};

/** What is said of it and what was, and for managers the form with what was typed still in it. */
async function sheet(c: Ctx, bucket: FoundBucket, typed: Typed, faults: readonly Fault[]) {
  const { db } = c.var;
  const said = await listDirections(db, bucket.id);
  const bodies = await listBodies(db);
  return {
    page: { title: `How to use ${bucket.name}`, here: "buckets" } as const,
    view: () =>
      DirectionsPage({
        bucket,
        said,
        bodies,
        mayKeep: memberOf(c).role === "manager",
        typed: (path) => typedText(typed, path),
        faults,
      }),
  };
}
