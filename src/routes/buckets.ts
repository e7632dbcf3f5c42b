import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { BucketForm } from "../../views/buckets/form.tsx";
import { BucketsPage } from "../../views/buckets/list.tsx";
import { addBucket } from "../db/bucket-keeping.ts";
import { findBucket, listBuckets } from "../db/buckets.ts";
import { findRecipe } from "../db/recipes.ts";
import { answer, created, page, wantsJson } from "../wire/answers.tsx";
import { check, readBody, type Typed } from "../wire/body.ts";
import { actOf, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { decimalText, idempotencyKey, line, ticked } from "../wire/fields.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { careOf } from "./bucket-care.ts";
import { careJson } from "./bucket-care-json.ts";
import { contentsJson, contentsOfBucket } from "./bucket-contents.ts";
import { bucketJson, shownBucket, standsAs } from "./bucket-json.ts";
import { bucketSheet, mixesOf, proofsJson, proofsOf, usesOf } from "./bucket-sheet.ts";
import { pastMixJson } from "./mix-json.ts";

export const buckets = new Hono<Env>();

const litres = decimalText.refine(
  (size) => size.gt(0) && size.lte(10_000) && size.decimalPlaces() <= 3,
  { error: "Litres above 0 and up to 10000, with three decimals at most." },
);

const bucketBody = z.strictObject({
  recipe: line(80),
  revision: z.coerce
    .number({ error: "The number of a revision, such as 2." })
    .int("The number of a revision, such as 2.")
    .min(1, "The first revision is 1.")
    .max(1_000_000),
  name: line(80),
  litres,
  test: ticked.default(false),
  idempotencyKey,
});

const listed = z.object({ after: z.string().max(400).optional() });
const asked = z.object({ recipe: z.string().optional(), revision: z.string().optional() });

buckets.get(
  "/buckets",
  described({ says: "The studio's shared buckets, in the order of names", query: listed }),
  memberRequired,
  async (c) => {
    const read = check(listed, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const after = read.value.after === undefined ? undefined : readPlace(read.value.after);
    if (after === null)
      return faulty(c, { faults: [{ path: "after", says: "This is not a place in the list." }] });
    const { db, viewer: reader, now } = c.var;
    const { items, next } = await listBuckets(db, { reader, now, after, limit: 100 });
    const cursor = next && writePlace(next);
    return answer(c, {
      json: () => ({ items: items.map(bucketJson), next: cursor }),
      page: { title: "Buckets", here: "buckets" },
      view: () =>
        BucketsPage({
          buckets: items.map(shownBucket),
          next: cursor,
          mayAdd: memberOf(c).role === "manager",
        }),
    });
  },
);

buckets.get(
  "/buckets/new",
  described({ says: "The form for a shared bucket", query: asked }),
  managerRequired,
  async (c) => {
    const form = bucketForm(c.req.query(), []);
    return page(c, form.page, form.view);
  },
);

buckets.post(
  "/buckets",
  described({ says: "Put a shared bucket of a revision on record", body: bucketBody, status: 201 }),
  managerRequired,
  async (c) => {
    const read = await readBody(c, bucketBody);
    const again = (faults: readonly Fault[]) =>
      faulty(c, { faults }, bucketForm(read.typed, faults));
    if (read.kind === "refused") return faulty(c, read, bucketForm(read.typed, read.faults));
    const { recipe: slug, revision: number, name, litres, test: forTest } = read.value;
    const { db, viewer: reader, now } = c.var;
    const recipe = await findRecipe(db, { slug, reader });
    if (!recipe) return again([{ path: "recipe", says: `There is no recipe at “${slug}”.` }]);

    const filled = { recipeId: recipe.id, number, name, litres, forTest };
    const added = await addBucket(db, { ...filled, ...actOf(c) });
    switch (added.kind) {
      case "no-such-revision": {
        const says = `${recipe.name} has no revision ${number}; the head is ${recipe.head}.`;
        return again([{ path: "revision", says }]);
      }
      case "not-approved": {
        const approved = added.approved
          ? `Revision ${added.approved.number} is approved.`
          : "No revision of it is.";
        const says = `Revision ${number} of ${recipe.name} ${standsAs[added.is]}, so nothing of it is mixed for members. ${approved} For trying it out, mark the bucket as a test bucket.`;
        return again([{ path: "revision", says }]);
      }
      case "added": {
        const bucket = await findBucket(db, { id: added.id, reader, now });
        return created(c, `/buckets/${added.id}`, bucket && bucketJson(bucket));
      }
    }
  },
);

buckets.get("/buckets/:id", described({ says: "A shared bucket" }), memberRequired, async (c) => {
  const { db, viewer: reader, now } = c.var;
  const bucket = await findBucket(db, { id: c.req.param("id"), reader, now });
  if (!bucket) return notFound(c);
  const more = wantsJson(c)
    ? {
        contents: contentsJson(contentsOfBucket(bucket)),
        ...proofsJson(await proofsOf(c, bucket)),
        mixes: (await mixesOf(c, bucket)).map(pastMixJson),
        ...careJson(await careOf(c, bucket)),
        used: await usesOf(c, bucket),
      }
    : {};
  const json = () => ({ ...bucketJson(bucket), ...more });
  return answer(c, { json, ...(await bucketSheet(c, bucket)) });
});

/** The form with what was typed still in it. */
const bucketForm = (typed: Typed, faults: readonly Fault[]) => ({
  page: { title: "A shared bucket", here: "buckets" as const },
  view: () =>
    BucketForm({
      typed: {
        recipe: typedText(typed, "recipe"),
        revision: typedText(typed, "revision"),
        name: typedText(typed, "name"),
        litres: typedText(typed, "litres"),
        test: typedText(typed, "test") !== "",
      },
      faults,
      idempotencyKey: uuidv7(),
    }),
});

type Place = { nameKey: string; id: string };

const writePlace = ({ nameKey, id }: Place): string =>
  Buffer.from(JSON.stringify([nameKey, id])).toString("base64url");

function readPlace(text: string): Place | null {
  try {
    const [nameKey, id] = z
      .tuple([z.string().max(200), z.uuid()])
      .parse(JSON.parse(Buffer.from(text, "base64url").toString()));
    return { nameKey, id };
  } catch {
    return null;
  }
}
