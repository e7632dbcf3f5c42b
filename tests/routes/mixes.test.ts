import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault } from "../../src/db/chain.ts";
import { listEvents } from "../../src/db/events.ts";
import { recalls } from "../../src/db/schema/index.ts";
import { addBucket, end, type Mix, openMix, readMix, tick, weighAll } from "../mixes.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  expect(await findChainFault(studio.db)).toBeUndefined();
  await studio.close();
});

const open = async (
  who: Who,
  bucket: string,
  json: object = { grams: "1000", scaleGrams: "1" },
) => {
  const answer = await studio.send(who, `/buckets/${bucket}/mixes`, { json });
  return { status: answer.status, mix: (await answer.json()) as Mix };
};
const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();
const kindsOf = async (subjectId: string) =>
  (await listEvents(studio.db, { subjectId, limit: 50 })).map(({ kind }) => kind);

describe("opening a mix", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("is the manager's: %s %i", async (who, status) => {
    const bucket = await addBucket(studio);
    expect((await open(who, bucket)).status).toBe(status);
    const { mixes } = await studio.json<{ mixes: Mix[] }>("author", `/buckets/${bucket}`);
    expect(mixes.length).toBe(status === 201 ? 1 : 0);
  });

  // By pencil: feldspar 40, whiting 20, quartz 25, kaolin 15 of 1000 g, and 2 of iron on top.
  it("keeps what the batch sheet says, base before additions and the heaviest first", async () => {
    const { mix } = await open("manager", await addBucket(studio));
    expect(
      mix.lines.map(({ n, part, material, grams, runningGrams }) => {
        return [n, part, material.slug, grams, runningGrams];
      }),
    ).toEqual([
      [1, "base", "potash-feldspar", "400", "400"],
      [2, "base", "quartz", "250", "650"],
      [3, "base", "whiting", "200", "850"],
      [4, "base", "kaolin", "150", "1000"],
      [5, "addition", "red-iron-oxide", "20", "1020"],
    ]);
    expect(mix).toMatchObject({
      is: "open",
      revision: 1,
      baseGrams: "1000",
      totalGrams: "1020",
      putGrams: "0",
      scaleGrams: "1",
      waterGrams: null,
      tolerancePercent: "1",
      by: { name: "Ines Okafor" },
      end: null,
      correction: null,
      chemistry: null,
    });
    expect(await kindsOf(mix.id)).toEqual(["mix opened"]);
  });

  it("rounds as POST /batch does, ties to the recipe's earlier line, whatever is weighed first", async () => {
    const lines: [string, string][] = [
      ["quartz", "1"],
      ["whiting", "1"],
      ["kaolin", "1"],
    ];
    const slug = await publish(studio, { lines });
    const { mix } = await open("manager", await addBucket(studio, slug), {
      grams: "100",
      scaleGrams: "1",
    });
    const sheet = await studio.send("visitor", "/batch", {
      json: { recipe: slug, grams: "100", scaleGrams: "1" },
    });
    const { lines: weighed } = (await sheet.json()) as {
      lines: { material: string; grams: string }[];
    };
    expect(mix.lines.map(({ material, grams }) => [material.slug, grams])).toEqual(
      weighed.map(({ material, grams }) => [material, grams]),
    );
    expect(mix.lines.map(({ grams }) => grams)).toEqual(["34", "33", "33"]);
  });

  // By pencil, S 2.65: 10 litres of 1.45 have 7227.3 g dry, of which 100/102 are base, and 7272.7 g water.
  it("fills so many litres, with the water for them", async () => {
    const fill = { litres: "10", specificGravity: "1.45" };
    const { mix } = await open("manager", await addBucket(studio), { fill, scaleGrams: "1" });
    expect(mix).toMatchObject({ baseGrams: "7086", waterGrams: "7272.7" });
  });

  it("says what dust does before anybody weighs, whatever is in it", async () => {
    const { mix } = await open("manager", await addBucket(studio));
    const html = await pageOf("author", `/mixes/${mix.id}`);
    const [, before] = html.split('id="before"');
    expect(before).toContain("<strong>Dust.</strong>");
  });

  it("says where the scale is too coarse", async () => {
    const { mix } = await open("manager", await addBucket(studio), {
      grams: "30",
      scaleGrams: "1",
    });
    // 2 % of 30 g is 0.6 g: a step of 1 g moves it by two thirds of itself.
    const iron = mix.lines.find(({ material }) => material.slug === "red-iron-oxide");
    expect(iron?.coarse?.percent).toBeCloseTo(66.67, 1);
    expect(mix.lines[0]?.coarse).toBeUndefined();
  });

  it("takes the studio's scale where none is said", async () => {
    const { mix } = await open("manager", await addBucket(studio), { grams: "10" });
    expect(mix.scaleGrams).toBe("0.1");
  });

  it("is one at a time for a bucket, and a second is led to it", async () => {
    const bucket = await addBucket(studio);
    const both = await Promise.all([0, 1, 2].map(() => open("manager", bucket)));
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
    const [first] = both.filter(({ status }) => status === 201);
    const second = both.find(({ status }) => status === 409);
    expect(second?.mix).toMatchObject({
      detail: expect.stringContaining("Ines Okafor has a mix of this bucket open"),
      mix: { id: first?.mix.id, href: `/mixes/${first?.mix.id}` },
    });
    await end(studio, "manager", first?.mix.id ?? "", { "giving-up": { why: "Twice." } });
    expect((await open("manager", bucket)).status).toBe(201);
  });

  it("is not for a bucket that is recalled", async () => {
    const bucket = await addBucket(studio);
    const why = "Barium went into it.";
    const at = new Date();
    await studio.db
      .insert(recalls)
      .values({ id: uuidv7(), bucketId: bucket, why, by: studio.ids.manager, at });
    const { status, mix } = await open("manager", bucket);
    expect([status, mix.detail]).toEqual([409, expect.stringContaining(why)]);
  });

  it.each<[string, object, string]>([
    ["no weight", { scaleGrams: "1" }, "grams"],
    ["both", { grams: "10", fill: { litres: "1", specificGravity: "1.4" } }, "fill"],
    ["what the scale cannot show", { grams: "10.5", scaleGrams: "1" }, "grams"],
    ["nothing", { grams: "0", scaleGrams: "1" }, "grams"],
    ["too fine a scale", { grams: "10", scaleGrams: "0.00001" }, "scaleGrams"],
    ["too thick", { fill: { litres: "1", specificGravity: "3" } }, "fill.specificGravity"],
    ["no litres", { fill: { litres: "0", specificGravity: "1.4" } }, "fill.litres"],
    ["an ocean", { fill: { litres: "90000", specificGravity: "1.001" } }, "fill.litres"],
    ["what is no field", { grams: "10", colour: "grey" }, "colour"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const { status, mix } = await open("manager", await addBucket(studio), json);
    expect(status).toBe(422);
    expect(mix.errors).toMatchObject([{ path }]);
  });

  it("refuses an addition that weighs more than is weighed", async () => {
    const slug = await publish(studio, {
      lines: [
        ["quartz", "1"],
        ["red-iron-oxide", "9", "addition"],
      ],
    });
    const { status, mix } = await open("manager", await addBucket(studio, slug), {
      grams: "200000",
      scaleGrams: "1",
    });
    expect([status, mix.errors]).toEqual([422, [{ path: "grams", says: expect.any(String) }]]);
  });

  it("takes a form, once for a double tap, and shows it again with what was typed", async () => {
    const bucket = await addBucket(studio);
    const path = `/buckets/${bucket}/mixes`;
    const form = { grams: "2000", scaleGrams: "1", idempotencyKey: `open-${bucket}` };
    const both = await Promise.all([0, 1].map(() => studio.send("manager", path, { form })));
    const [one, other] = both.map((answer) => answer.headers.get("location"));
    expect(one).toMatch(/^\/mixes\/[0-9a-f-]{36}$/);
    expect(other).toBe(one);
    const page = await pageOf("author", `/buckets/${bucket}`);
    expect(page).toContain(`href="${one}"`);
    expect(page).not.toContain("Mix a batch");

    const another = await addBucket(studio);
    const wrong = await studio.send("manager", `/buckets/${another}/mixes`, {
      form: { "fill.litres": "10", "fill.specificGravity": "9", scaleGrams: "1" },
    });
    expect(wrong.status).toBe(422);
    const again = await wrong.text();
    expect(again).toContain('href="#field-fill.specificGravity"');
    expect(again).toMatch(/name="fill\.litres"[^>]*value="10"/);
    expect(await pageOf("author", `/buckets/${another}`)).not.toContain("Mix a batch");
  });
});

describe("who may know of a mix", () => {
  it("is who may know of the recipe", async () => {
    const slug = await publish(studio, { shownTo: "private" });
    const mix = await openMix(studio, slug);
    expect((await studio.send("author", `/mixes/${mix.id}`)).status).toBe(200);
    expect((await studio.send("other member", `/mixes/${mix.id}`)).status).toBe(404);
    expect((await tick(studio, "other member", mix.id, { n: 1, grams: "400" })).status).toBe(404);
    expect((await studio.send("visitor", `/mixes/${mix.id}`)).status).toBe(401);
    for (const id of ["7", uuidv7()])
      expect((await studio.send("manager", `/mixes/${id}`)).status).toBe(404);
  });

  it("has a tag that is another once something went in", async () => {
    const mix = await openMix(studio);
    const ask = (tag?: string) =>
      studio.send("author", `/mixes/${mix.id}`, {
        accept: "application/json",
        ...(tag && { headers: { "if-none-match": tag } }),
      });
    const tag = (await ask()).headers.get("etag") ?? "";
    expect((await ask(tag)).status).toBe(304);
    await tick(studio, "author", mix.id, { n: 1, grams: "400" });
    expect((await ask(tag)).status).toBe(200);
  });
});

describe("ending a mix", () => {
  it("names every line that is not in, each with its place", async () => {
    const mix = await openMix(studio);
    await tick(studio, "author", mix.id, { n: 2, grams: "250" });
    const { status, mix: answer } = await end(studio, "manager", mix.id, {
      finish: { waterGrams: "900" },
    });
    expect(status).toBe(422);
    expect(answer.errors).toEqual([
      { path: "lines.1.grams", says: "Potash feldspar is not in yet: 400 g." },
      { path: "lines.3.grams", says: "Whiting is not in yet: 200 g." },
      { path: "lines.4.grams", says: "Kaolin is not in yet: 150 g." },
      { path: "lines.5.grams", says: "Red iron oxide is not in yet: 20 g." },
    ]);
    expect((await readMix(studio, mix.id)).is).toBe("open");
  });

  it("puts the bucket on hold until there is a proof tile", async () => {
    const mix = await openMix(studio);
    await weighAll(studio, mix);
    const finish = { waterGrams: "1020.5" };
    const ended = await end(studio, "manager", mix.id, { finish });
    expect([ended.status, ended.mix.is]).toEqual([200, "finished"]);
    expect(ended.mix.end).toMatchObject({ waterGrams: "1020.5", by: "Ines Okafor" });
    // Sent again by a page that never saw the answer, it says the same; with other water it does not.
    expect((await end(studio, "manager", mix.id, { finish })).status).toBe(200);
    const other = await end(studio, "manager", mix.id, { finish: { waterGrams: "1" } });
    expect([other.status, other.mix.detail]).toEqual([
      409,
      "This mix is finished already, by Ines Okafor.",
    ]);
    type Bucket = { is: string; changes: { why: string }[]; mixes: Mix[] };
    const bucket = await studio.json<Bucket>("author", `/buckets/${mix.bucket.id}`);
    expect(bucket.is).toBe("hold");
    expect(bucket.changes.map(({ why }) => why)).toEqual(["Mixed: a proof tile comes first."]);
    expect(bucket.mixes).toMatchObject([{ id: mix.id, is: "finished", putGrams: "1020" }]);
    expect((await kindsOf(mix.id)).at(-1)).toBe("mix finished");
    const late = await tick(studio, "author", mix.id, { n: 1, grams: "1", adds: true });
    expect([late.status, late.mix.detail]).toEqual([
      409,
      "This mix is finished: nothing more goes in.",
    ]);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("is for who opened it and for managers: %s %i", async (who, status) => {
    const mix = await openMix(studio);
    expect((await end(studio, who, mix.id, { "giving-up": { why: "Spilt." } })).status).toBe(
      status,
    );
    expect((await readMix(studio, mix.id)).is).toBe(status === 200 ? "given up" : "open");
    const another = await openMix(studio);
    await weighAll(studio, another);
    expect((await end(studio, who, another.id, { finish: { waterGrams: "9" } })).status).toBe(
      status,
    );
    expect((await readMix(studio, another.id)).is).toBe(status === 200 ? "finished" : "open");
  });

  it("gives up with a reason, once, and takes nothing more", async () => {
    const mix = await openMix(studio);
    const give = (why: string) => end(studio, "manager", mix.id, { "giving-up": { why } });
    expect((await give("")).mix.errors).toMatchObject([{ path: "why" }]);
    expect((await give("The scale was wrong.")).mix.end).toMatchObject({
      is: "given up",
      why: "The scale was wrong.",
    });
    expect((await give("The scale was wrong.")).status).toBe(200);
    expect((await give("Another reason.")).status).toBe(409);
    expect((await tick(studio, "author", mix.id, { n: 1, grams: "1" })).status).toBe(409);
    expect(await kindsOf(mix.id)).toEqual(["mix opened", "mix given up"]);
  });

  it("takes forms, and shows them again with what was typed", async () => {
    const mix = await openMix(studio);
    await weighAll(studio, mix);
    const path = `/mixes/${mix.id}/finish`;
    const wrong = await studio.send("manager", path, { form: { waterGrams: "much" } });
    expect(wrong.status).toBe(422);
    expect(await wrong.text()).toMatch(/name="waterGrams"[^>]*value="much"/);
    const right = await studio.send("manager", path, { form: { waterGrams: "900" } });
    expect([right.status, right.headers.get("location")]).toEqual([303, `/mixes/${mix.id}`]);
    const page = await pageOf("author", `/mixes/${mix.id}`);
    expect(page).toContain("Finished by Ines Okafor");
    expect(page).not.toContain("<button");
  });
});
