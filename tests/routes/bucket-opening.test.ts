import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { bucketJson } from "../../src/routes/bucket-json.ts";
import { fireTile } from "../evidence.ts";
import { addBucket, end, type Mix, tick, undo, weighAll } from "../mixes.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";
import { stand } from "../waiting.ts";

type Bucket = ReturnType<typeof bucketJson>;
type Refused = { detail?: string; errors?: { path: string; says: string }[] };

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

let glazes = 0;
/** A recipe of a melt of its own that counts as approved, so that nothing else unsettles it. */
async function approved(use: "functional" | "decorative" = "functional", given = {}) {
  glazes += 1;
  const slug = await publish(studio, {
    different: { use },
    lines: [
      ["potash-feldspar", "40"],
      ["whiting", "20"],
      ["quartz", `25.${glazes}`],
      ["kaolin", "15"],
    ],
    ...given,
  });
  await stand(studio, slug, { is: "approved", for: use });
  return slug;
}

const read = (id: string) => studio.json<Bucket>("author", `/buckets/${id}`);
const say = async (bucket: string, is: string, who: Who = "manager") => {
  const sent = { method: "PUT", json: { is, why: "Looked at." } };
  const answer = await studio.send(who, `/buckets/${bucket}/state`, sent);
  return { status: answer.status, body: (await answer.json()) as Refused };
};
/** What keeps it from being opened, each in words; none where it was. */
const refusal = async (bucket: string) => {
  const { status, body } = await say(bucket, "open");
  expect(body.errors?.every(({ path }) => path === "is") ?? true).toBe(true);
  expect(status).toBe(body.errors ? 422 : 200);
  return body.errors?.map(({ says }) => says) ?? [];
};
const mixInto = async (bucket: string) => {
  const json = { grams: "1000", scaleGrams: "1" };
  const answer = await studio.send("manager", `/buckets/${bucket}/mixes`, { json });
  return { status: answer.status, mix: (await answer.json()) as Mix & Refused };
};
const fill = async (bucket: string) => {
  const { mix } = await mixInto(bucket);
  await weighAll(studio, mix);
  await end(studio, "manager", mix.id, { finish: { waterGrams: "900" } });
};
/** A proof tile, which unsettles the approval that the test gave. */
const prove = async (slug: string, bucket: string, defects: string[] = []) => {
  const tile = await fireTile(studio, slug, { bucket, defects });
  await stand(studio, slug, { is: "approved", for: "functional" });
  return tile;
};

const [notMixed, mixing, unproved] = [
  expect.stringContaining("not mixed yet"),
  expect.stringContaining("A mix of it is open"),
  expect.stringContaining("No proof tile"),
];

describe("opening a bucket to members", () => {
  it("waits for a finished mix and a sound proof tile of it", async () => {
    const slug = await approved();
    const bucket = await addBucket(studio, slug, { approved: true });
    expect(await refusal(bucket)).toEqual([notMixed]);
    const { mix } = await mixInto(bucket);
    expect(await refusal(bucket)).toEqual([notMixed]);
    await weighAll(studio, mix);
    expect(await refusal(bucket)).toEqual([notMixed, mixing]);
    await end(studio, "manager", mix.id, { finish: { waterGrams: "900" } });
    expect(await refusal(bucket)).toEqual([unproved]);
    expect(await read(bucket)).toMatchObject({ is: "hold", mayUse: { food: false } });

    await prove(slug, bucket, ["running", "crazing"]);
    expect(await refusal(bucket)).toEqual([expect.stringContaining("came out with crazing:")]);
    const tile = await prove(slug, bucket, ["running"]);
    await studio.send("author", `/tiles/${tile}/withdrawal`, { json: { why: "Another tub." } });
    await stand(studio, slug, { is: "approved", for: "functional" });
    expect(await refusal(bucket)).toEqual([expect.stringContaining("came out with crazing:")]);
    await prove(slug, bucket);
    expect((await say(bucket, "open", "author")).status).toBe(403);
    expect(await refusal(bucket)).toEqual([]);
    expect(await read(bucket)).toMatchObject({
      is: "open",
      mayUse: { food: true, decorative: true },
      cautions: [expect.stringContaining("Not this lot's analysis")],
    });
    const page = await (await studio.send("author", `/buckets/${bucket}`)).text();
    expect(page).toContain("Yes, as its revision is approved: for functional ware");
  });

  it("waits again when it was topped up, from the first powder on, and when it was emptied", async () => {
    const slug = await approved();
    const bucket = await addBucket(studio, slug, { approved: true });
    await fill(bucket);
    await prove(slug, bucket);
    await say(bucket, "open");
    const { mix } = await mixInto(bucket);
    expect((await read(bucket)).mayUse.food).toBe(true);
    const { key } = await tick(studio, "author", mix.id, {
      n: 1,
      grams: mix.lines[0]?.grams ?? "",
    });
    expect(await read(bucket)).toMatchObject({ is: "open", mayUse: { food: false } });
    expect((await read(bucket)).cautions[0]).toContain("Powders went in since it was opened");
    await undo(studio, "author", mix.id, { n: 1, key });
    expect((await read(bucket)).mayUse.food).toBe(true);
    await weighAll(studio, mix);
    await end(studio, "manager", mix.id, { finish: { waterGrams: "900" } });
    expect(await refusal(bucket)).toEqual([unproved]);
    await prove(slug, bucket);
    expect(await refusal(bucket)).toEqual([]);
    expect((await say(bucket, "empty")).status).toBe(200);
    expect(await refusal(bucket)).toEqual([notMixed]);
    expect((await read(bucket)).mayUse).toMatchObject({ food: false, because: ["It is empty."] });
  });

  it("lets a decorative glaze craze, and a test bucket go without a proof, but not onto pots", async () => {
    const slug = await approved("decorative");
    const bucket = await addBucket(studio, slug, { approved: true });
    await fill(bucket);
    await fireTile(studio, slug, { bucket, defects: ["crazing"] });
    expect(await refusal(bucket)).toEqual([]);
    await stand(studio, slug, { is: "approved" });
    expect((await read(bucket)).mayUse).toMatchObject({ food: false, decorative: true });

    const draft = await publish(studio, { lines: [["whiting", "100"]] });
    const forTest = await addBucket(studio, draft);
    expect(await refusal(forTest)).toEqual([notMixed]);
    await fill(forTest);
    expect(await refusal(forTest)).toEqual([]);
    expect((await read(forTest)).mayUse).toMatchObject({ food: false, decorative: false });
    await stand(studio, draft, { is: "approved", for: "functional" });
    expect((await read(forTest)).mayUse).toMatchObject({ food: false, decorative: true });
  });

  it("is not mixed for members while its revision is not approved", async () => {
    const slug = await approved();
    const bucket = await addBucket(studio, slug, { approved: true });
    await stand(studio, slug, { is: "needs another look" });
    const { status, mix } = await mixInto(bucket);
    expect([status, mix.detail]).toEqual([409, expect.stringContaining("needs another look")]);
    const form = { form: { grams: "1000", "fill.litres": "", scaleGrams: "1" } };
    const page = await studio.send("manager", `/buckets/${bucket}/mixes`, form);
    expect([page.status, await page.text()]).toEqual([
      409,
      expect.stringContaining("nothing of it is mixed for members until it is approved"),
    ]);
    await stand(studio, slug, { is: "approved", for: "functional" });
    expect((await mixInto(bucket)).status).toBe(201);
  });
});

describe("what of a recipe is in stock", () => {
  type Found = { stock: { bucket: string; is: string; mayUse: object; litres: string }[] | null };
  const stocked = async () => {
    const { items } = await studio.json<{ items: { slug: string }[] }>(
      "author",
      "/recipes?stocked=1",
    );
    return items.map((item) => item.slug);
  };

  it("is what is not empty, as it was last measured, and found by who looks for it", async () => {
    const slug = await approved();
    const bucket = await addBucket(studio, slug, { approved: true });
    const used = await addBucket(studio, slug, { approved: true });
    await say(used, "empty");
    await fill(bucket);
    const { stock } = await studio.json<Found>("author", `/recipes/${slug}`);
    expect(stock).toMatchObject([
      { bucket, revision: 1, is: "hold", mayUse: { food: false }, litres: "20" },
    ]);
    expect(await stocked()).not.toContain(slug);
    const reading = { specificGravity: "1.45", litres: "1.5", stirred: true };
    await studio.send("author", `/buckets/${bucket}/readings`, { json: reading });
    await prove(slug, bucket);
    await say(bucket, "open");
    expect((await studio.json<Found>("author", `/recipes/${slug}`)).stock).toMatchObject([
      { is: "open", mayUse: { food: true, decorative: true }, litres: "1.5" },
    ]);
    expect(await stocked()).toContain(slug);
    const page = await (await studio.send("author", `/recipes/${slug}`)).text();
    expect(page).toContain(`In stock: <a href="/buckets/${bucket}">Tall grey bucket</a>`);
    const list = await (await studio.send("author", "/recipes?stocked=1&cone=6")).text();
    expect(list).toMatch(/name="stocked" value="1" checked/);
    expect(list).toContain(`/recipes/${slug}`);
    await say(bucket, "hold", "author");
    expect(await stocked()).not.toContain(slug);
  });

  it("is not told to visitors", async () => {
    const slug = await approved();
    await addBucket(studio, slug, { approved: true });
    expect((await studio.json<Found>("visitor", `/recipes/${slug}`)).stock).toBeNull();
    expect((await studio.send("visitor", "/recipes?stocked=1")).status).toBe(401);
    expect(await (await studio.send("visitor", "/recipes")).text()).not.toContain("stocked");
    expect((await studio.send("author", "/recipes?stocked=yes")).status).toBe(422);
  });
});
