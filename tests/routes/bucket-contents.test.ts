import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { contentsJson } from "../../src/routes/bucket-contents.ts";
import type { bucketJson } from "../../src/routes/bucket-json.ts";
import { fireTile } from "../evidence.ts";
import { addBucket, buy, end, type Mix, tick, undo, weighAll } from "../mixes.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";
import { revisionOf, stand } from "../waiting.ts";

type Bucket = ReturnType<typeof bucketJson> & { contents: ReturnType<typeof contentsJson> };

let studio: TestStudio;
let slug: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  slug = await publish(studio, { different: { use: "functional" } });
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const approve = () => stand(studio, slug, { is: "approved", for: "functional" });
const newBucket = async () => {
  await approve();
  return addBucket(studio, slug, { approved: true });
};
const read = (id: string) => studio.json<Bucket>("author", `/buckets/${id}`);
const contentsOf = async (id: string) => (await read(id)).contents;
const pageOf = async (path: string) => (await studio.send("author", path)).text();
const mixInto = async (bucket: string) => {
  const json = { grams: "1000", scaleGrams: "1" };
  return (await (await studio.send("manager", `/buckets/${bucket}/mixes`, { json })).json()) as Mix;
};
const finish = (mix: Mix) => end(studio, "manager", mix.id, { finish: { waterGrams: "900" } });
const fill = async (bucket: string) => {
  const mix = await mixInto(bucket);
  await weighAll(studio, mix);
  await finish(mix);
};
const measure = (bucket: string, litres: string) =>
  studio.send("author", `/buckets/${bucket}/readings`, {
    json: { specificGravity: "1.3", litres, stirred: true },
  });
const grams = ({ lines }: Bucket["contents"]) =>
  Object.fromEntries(lines.map(({ material, grams: of }) => [material.slug, of]));

/** Another analysis of a powder, in use or not, and a lot of it. */
async function lotOf(material: string, formula: string, mark: string): Promise<string> {
  const json = { formula, source: `Quayside Ceramics, lot ${mark}`, inUse: false };
  const added = await studio.send("manager", `/materials/${material}/analyses`, { json });
  const { id: analysis } = (await added.json()) as { id: string };
  return buy(studio, material, { analysis, mark });
}

describe("what is in a bucket", () => {
  // By pencil, with 2.65 for every powder: a litre of 1.3 holds 300 × 2.65/1.65 = 481.8 g dry.
  it("is what went in, as far as a reading finds it still there", async () => {
    const bucket = await newBucket();
    const { digest } = await revisionOf(studio, slug);
    expect(await contentsOf(bucket)).toEqual({
      ...{ digest, dryGrams: "0", lots: [], lines: [], assumed: [], chemistry: null },
    });
    await fill(bucket);
    expect(await contentsOf(bucket)).toMatchObject({
      dryGrams: "1020",
      assumed: [expect.stringContaining("since it was last mixed")],
    });
    await measure(bucket, "1");
    const measured = await contentsOf(bucket);
    expect(measured).toMatchObject({ dryGrams: "481.8", assumed: [] });
    // 400, 250, 200, 150 and 20 of 1020 g.
    expect(grams(measured)).toEqual({
      "potash-feldspar": "188.9",
      quartz: "118.1",
      whiting: "94.5",
      kaolin: "70.9",
      "red-iron-oxide": "9.4",
    });
    await approve();
    await fill(bucket);
    const toppedUp = await contentsOf(bucket);
    expect(toppedUp.dryGrams).toBe("1501.8");
    expect(grams(toppedUp).whiting).toBe("294.5");
    expect(toppedUp.chemistry?.moved).toEqual([]);
    const page = await pageOf(`/buckets/${bucket}`);
    expect(page).toContain("About 1502 g of dry powder are in it.");
    expect(page).toContain("nobody could tell which bag; not this lot&#39;s analysis");
    const empty = { method: "PUT", json: { is: "empty", why: "Used up." } };
    await studio.send("manager", `/buckets/${bucket}/state`, empty);
    expect(await contentsOf(bucket)).toMatchObject({ dryGrams: "0", lines: [], chemistry: null });
    expect((await read(bucket)).cautions).toEqual(["It is empty."]);
  });

  it("does not shrink by a reading that finds more than went in, nor by one that was not stirred", async () => {
    const bucket = await newBucket();
    await fill(bucket);
    await measure(bucket, "15");
    expect((await contentsOf(bucket)).dryGrams).toBe("1020");
    const json = { specificGravity: "1.1", litres: "1", stirred: false };
    await studio.send("author", `/buckets/${bucket}/readings`, { json });
    expect((await contentsOf(bucket)).dryGrams).toBe("1020");
  });

  it("knows its lots, those of a mix that was given up too, and marks what nobody analysed", async () => {
    const bucket = await newBucket();
    const known = await lotOf("quartz", "SiO2", "Q-1");
    const unknown = await buy(studio, "kaolin", { mark: "K-1" });
    const mix = await mixInto(bucket);
    const lineOf = (material: string) =>
      mix.lines.find((line) => line.material.slug === material)?.n ?? 0;
    await tick(studio, "author", mix.id, { n: lineOf("quartz"), grams: "250", lot: known });
    await tick(studio, "author", mix.id, { n: lineOf("kaolin"), grams: "150", lot: unknown });
    await tick(studio, "author", mix.id, { n: lineOf("whiting"), grams: "200" });
    const mistaken = { n: lineOf("potash-feldspar"), grams: "400" };
    const { key } = await tick(studio, "author", mix.id, mistaken);
    await undo(studio, "author", mix.id, { n: mistaken.n, key });
    await end(studio, "manager", mix.id, { "giving-up": { why: "The scale broke." } });
    const { contents, cautions } = await read(bucket);
    expect(contents.lots).toMatchObject([
      { id: known, mark: "Q-1", material: { slug: "quartz" }, grams: "250", notThisLot: false },
      { id: unknown, mark: "K-1", material: { slug: "kaolin" }, grams: "150", notThisLot: true },
      { id: null, mark: null, material: { slug: "whiting" }, grams: "200", notThisLot: true },
    ]);
    expect(cautions.join(" ")).toContain("Not this lot's analysis: Kaolin, Whiting.");
  });
});

describe("a bucket whose lots make it another glaze", () => {
  const caution = expect.stringMatching(
    /^What is in it is no longer what was approved: .*MgO in the unity formula from 0\.000 to/,
  );

  it("is flagged the moment the tick is made, and no longer once it is taken back", async () => {
    const bucket = await newBucket();
    const dolomite = await lotOf("whiting", "CaMg(CO3)2", "W-9");
    await fill(bucket);
    await fireTile(studio, slug, { bucket });
    await approve();
    const open = { method: "PUT", json: { is: "open", why: "Proved." } };
    expect((await studio.send("manager", `/buckets/${bucket}/state`, open)).status).toBe(200);
    expect(await pageOf(`/buckets/${bucket}`)).toContain("standing-for");

    const mix = await mixInto(bucket);
    const n = mix.lines.find(({ material }) => material.slug === "whiting")?.n ?? 0;
    const { key } = await tick(studio, "author", mix.id, { n, grams: "200", lot: dolomite });
    const flagged = await read(bucket);
    expect(flagged.standing).toMatchObject({ is: "approved", for: "functional" });
    expect(flagged.cautions).toContainEqual(caution);
    expect(flagged.mayUse).toMatchObject({ food: false, decorative: false });
    expect(flagged.contents.chemistry).toMatchObject({
      differences: expect.arrayContaining([expect.objectContaining({ of: "MgO", before: 0 })]),
      asPlanned: true,
    });
    for (const path of ["/buckets", `/buckets/${bucket}`])
      expect(await pageOf(path)).toContain("What is in it is no longer what was approved");
    expect(await pageOf(`/buckets/${bucket}`)).not.toContain("standing-for");
    await undo(studio, "author", mix.id, { n, key });
    expect((await read(bucket)).cautions).not.toContainEqual(caution);
  });

  it("is not opened, and its revision stays approved for other buckets", async () => {
    const [bucket, other] = [await newBucket(), await newBucket()];
    const dolomite = await lotOf("whiting", "CaMg(CO3)2", "W-10");
    const mix = await mixInto(bucket);
    for (const { n, material, grams: planned } of mix.lines) {
      const lot = material.slug === "whiting" ? { lot: dolomite } : {};
      await tick(studio, "author", mix.id, { n, grams: planned, ...lot });
    }
    await finish(mix);
    await fireTile(studio, slug, { bucket });
    await approve();
    const open = { method: "PUT", json: { is: "open", why: "Proved." } };
    const answer = await studio.send("manager", `/buckets/${bucket}/state`, open);
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path: "is", says: caution }] });
    await fill(other);
    expect((await read(other)).cautions).not.toContainEqual(caution);
  });
});
