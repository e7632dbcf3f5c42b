import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import type { BucketCare } from "../../src/routes/bucket-care.ts";
import type { careJson, readingJson } from "../../src/routes/bucket-care-json.ts";
import type { bucketJson } from "../../src/routes/bucket-json.ts";
import { made } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Bucket = ReturnType<typeof bucketJson> & ReturnType<typeof careJson>;
type Reading = ReturnType<typeof readingJson> & { advice: BucketCare["advice"]; errors?: unknown };

let studio: TestStudio;
let slug: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  const soda = { name: "Soda ash", kind: "carbonate", formula: "Na2CO3", hazards: ["soluble"] };
  await studio.send("manager", "/materials", { json: soda });
  slug = await publish(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const fill = async (recipe = slug) => {
  const json = { recipe, revision: 1, name: "Tall grey bucket", litres: "20", test: true };
  const answer = await studio.send("manager", "/buckets", { json });
  return ((await answer.json()) as { id: string }).id;
};
const read = (id: string) => studio.json<Bucket>("author", `/buckets/${id}`);
const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();
const eventsOf = async (id: string) =>
  (await listEvents(studio.db, { subjectId: id, limit: 50 })).map(({ kind }) => kind);
const errorsOf = async (answer: Response) =>
  ((await answer.json()) as { errors: { path: string; says: string }[] }).errors;

const directed = {
  gravity: { low: "1.43", high: "1.47" },
  flow: { low: "30", high: "40" },
  catchDish: true,
  sieve: "80 mesh, twice",
};
const direct = (id: string, json: object = directed, who: Who = "manager") =>
  studio.send(who, `/buckets/${id}/directions`, { method: "PUT", json });
const thick = { specificGravity: "1.6", litres: "10", stirred: true };
const measure = (id: string, json: object = thick, who: Who = "author") =>
  studio.send(who, `/buckets/${id}/readings`, { json });
const put = (id: string, json: object, who: Who = "author") =>
  studio.send(who, `/buckets/${id}/additions`, { json });
const report = (id: string, json: object, who: Who = "author") =>
  studio.send(who, `/buckets/${id}/reports`, { json });
const empty = (id: string) =>
  studio.send("manager", `/buckets/${id}/state`, {
    method: "PUT",
    json: { is: "empty", why: "Used up." },
  });

describe("readings of a bucket", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["manager", 201],
  ])("answers the %s who measured it with %i", async (who, status) => {
    const id = await fill();
    expect((await measure(id, thick, who)).status).toBe(status);
    expect((await read(id)).readings.length).toBe(status === 201 ? 1 : 0);
    expect(await eventsOf(id)).toEqual(
      ["bucket added", "bucket read"].slice(0, status === 201 ? 2 : 1),
    );
  });

  // By hand: 1000 × 10 × 0.15/0.45 g of water; 6000 × 2.65/1.65 g of dry powder.
  it("says what to do, and what it says of the dry powder", async () => {
    const id = await fill();
    await direct(id);
    const answer = (await (await measure(id)).json()) as Reading;
    expect(answer.advice?.kind).toBe("add water");
    expect(answer.advice?.addWaterGrams?.middle).toBeCloseTo(3333.33, 2);
    expect(answer.dry?.dryGrams).toBeCloseTo(9636.36, 2);
    expect(answer.dry?.dryPlusMinus).toBeCloseTo(0.03 * 9636.36, 1);
    expect(answer.dry?.says).toContain("stirred, no froth, little soluble matter");
    const page = await pageOf("author", `/buckets/${id}`);
    expect(page).toContain("Add 3333 g of water for 1.45");
    expect(page).toContain("9.64");
    expect(page).toContain("2.65 is assumed of each");
    expect(page).toContain("<desc>");
    expect((await read(id)).advice).toEqual(answer.advice);
  });

  it("asks to measure again once something went in, and to stir what was not", async () => {
    const id = await fill();
    await direct(id);
    await measure(id);
    await put(id, { what: "water", amount: "1500", unit: "ml" });
    expect((await read(id)).advice?.kind).toBe("measure again");
    await measure(id, { ...thick, stirred: false });
    expect((await read(id)).advice?.kind).toBe("stir first");
    expect((await read(id)).readings[0]?.dry).toBeNull();
  });

  it("keeps them newest first, page by page", async () => {
    const id = await fill();
    for (const specificGravity of ["1.5", "1.48", "1.46"])
      await measure(id, { ...thick, specificGravity });
    const path = `/buckets/${id}/readings`;
    const { items } = await studio.json<{ items: Reading[] }>("author", path);
    expect(items.map((each) => each.specificGravity)).toEqual(["1.46", "1.48", "1.5"]);
    const after = await studio.json<{ items: Reading[] }>(
      "author",
      `${path}?after=${items[1]?.id}`,
    );
    expect(after.items.map((each) => each.specificGravity)).toEqual(["1.5"]);
    expect((await studio.send("author", `${path}?after=x`)).status).toBe(422);
    expect(await pageOf("author", path)).toContain("Readings, newest first");
  });

  it.each<[string, object, string]>([
    ["no gravity", { specificGravity: undefined }, "specificGravity"],
    ["a gravity under water's", { specificGravity: "0.9" }, "specificGravity"],
    ["a gravity of stone", { specificGravity: "3.1" }, "specificGravity"],
    ["no litres", { litres: "0" }, "litres"],
    ["a flow of nothing", { flowSeconds: "0" }, "flowSeconds"],
    ["a thick coat", { coatMm: "21" }, "coatMm"],
    ["steam", { celsius: "61" }, "celsius"],
    ["a field that is none", { colour: "grey" }, "colour"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const id = await fill();
    const answer = await measure(id, { ...thick, ...json });
    expect(answer.status).toBe(422);
    expect(await errorsOf(answer)).toMatchObject([{ path }]);
    expect((await read(id)).readings).toEqual([]);
  });

  it("takes a form, once for a double tap, and shows it again with what was typed", async () => {
    const id = await fill();
    const path = `/buckets/${id}/readings`;
    const form = { specificGravity: "heavy", litres: "9", stirred: "on", note: "Froth <on> top." };
    const again = await studio.send("author", path, { form });
    expect(again.status).toBe(422);
    const page = await again.text();
    expect(page).toContain('value="heavy"');
    expect(page).toContain("Froth &lt;on&gt; top.");
    expect(page).toContain('href="#field-specificGravity"');
    const sent = { form: { ...form, specificGravity: "1.5", idempotencyKey: `r${id}` } };
    const both = await Promise.all([0, 1].map(() => studio.send("author", path, sent)));
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect((await read(id)).readings).toMatchObject([{ stirred: true, litres: "9" }]);
  });

  it("measures, fills and reports nothing that is empty", async () => {
    const id = await fill();
    await empty(id);
    expect((await measure(id)).status).toBe(422);
    expect((await put(id, { what: "water", amount: "1", unit: "g" })).status).toBe(422);
    expect((await report(id, { trouble: "contaminated" })).status).toBe(422);
    expect(await eventsOf(id)).toEqual(["bucket added", "bucket changed"]);
  });

  it("does not tell of a private recipe's bucket", async () => {
    const id = await fill(await publish(studio, { shownTo: "private" }));
    for (const answer of [
      await measure(id, thick, "other member"),
      await put(id, { what: "water", amount: "1", unit: "g" }, "other member"),
      await report(id, { trouble: "thin" }, "other member"),
      await studio.send("other member", `/buckets/${id}/directions`),
    ])
      expect(answer.status).toBe(404);
    expect(await eventsOf(id)).toEqual(["bucket added"]);
  });
});

describe("what goes into a bucket", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["manager", 201],
  ])("answers the %s who writes it down with %i", async (who, status) => {
    const id = await fill();
    const drops = { what: "deflocculant", named: "Sodium silicate", amount: "3", unit: "drops" };
    expect((await put(id, drops, who)).status).toBe(status);
    const { additions } = await read(id);
    expect(additions).toMatchObject(status === 201 ? [drops] : []);
    if (status === 201)
      expect(await pageOf("author", `/buckets/${id}`)).toContain(
        "3 drops of Sodium silicate, deflocculant",
      );
  });

  it("takes water off only where nothing dissolves in it", async () => {
    const off = { what: "water off", amount: "500", unit: "ml" };
    expect((await put(await fill(), off)).status).toBe(201);
    const lines: [string, string][] = [
      ["potash-feldspar", "90"],
      ["soda-ash", "10"],
    ];
    const id = await fill(await publish(studio, { lines }));
    const refused = await put(id, off);
    expect(refused.status).toBe(422);
    expect(await errorsOf(refused)).toMatchObject([
      { path: "what", says: expect.stringContaining("Never pour water off") },
    ]);
    const bucket = await read(id);
    expect(bucket.additions).toEqual([]);
    expect(bucket.dissolves).toBe(true);
    expect(await pageOf("author", `/buckets/${id}`)).not.toContain('value="water off"');
  });

  it.each<[string, object, string]>([
    ["sugar", { what: "sugar" }, "what"],
    ["nothing", { amount: "0" }, "amount"],
    ["a pinch", { unit: "pinch" }, "unit"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const id = await fill();
    const answer = await put(id, { what: "water", amount: "1", unit: "g", ...json });
    expect(answer.status).toBe(422);
    expect(await errorsOf(answer)).toMatchObject([{ path }]);
  });
});

describe("directions of a bucket", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s who says how to use it with %i", async (who, status) => {
    const id = await fill();
    expect((await direct(id, directed, who)).status).toBe(status);
    const { directions } = await read(id);
    if (status !== 200) return expect(directions).toBeNull();
    expect(directions).toMatchObject({ ...directed, coat: null, by: "Ines Okafor" });
    expect(await eventsOf(id)).toEqual(["bucket added", "bucket directed"]);
  });

  it("counts the newest, keeps those before, and takes all of it by a form", async () => {
    const id = await fill();
    const body = await made<{ slug: string }>(studio, "/bodies", {
      name: `Directed stoneware ${id}`,
      cones: { low: "5", high: "7" },
    });
    await direct(id);
    const form = {
      ...{ "gravity.low": "1.5", "gravity.high": "1.5", "coat.low": "0.8", "coat.high": "1.2" },
      ...{ body: body.slug, bisqueCone: "04", dipSeconds: "3", coats: "2", footMm: "6" },
      ...{ keepsMonths: "12", stirring: "From the bottom.", ask: "Ines <on> Tuesdays" },
    };
    const sent = await studio.send("manager", `/buckets/${id}/directions`, { form });
    expect(sent.status).toBe(303);
    const { directions } = await read(id);
    expect(directions).toMatchObject({
      gravity: { low: "1.5", high: "1.5" },
      flow: null,
      body: { slug: body.slug },
      ...{ bisqueCone: "04", dipSeconds: "3", coats: 2, footMm: "6", keepsMonths: 12 },
      ...{ catchDish: false, sieve: "" },
    });
    const history = await studio.json<{ earlier: unknown[] }>(
      "author",
      `/buckets/${id}/directions`,
    );
    expect(history.earlier).toMatchObject([directed]);
    const page = await pageOf("author", `/buckets/${id}`);
    for (const says of ["cone 04", "3 seconds", "12 months", "Ines &lt;on&gt; Tuesdays"])
      expect(page).toContain(says);
    const formPage = await pageOf("manager", `/buckets/${id}/directions`);
    expect(formPage).toContain('value="1.5"');
    expect(await pageOf("author", `/buckets/${id}/directions`)).not.toContain("<form");
  });

  it.each<[string, object, string]>([
    ["one end of a band", { gravity: { low: "1.4" } }, "gravity.high"],
    ["a band upside down", { gravity: { low: "1.5", high: "1.4" } }, "gravity.high"],
    ["a gravity of water", { gravity: { low: "1", high: "1.4" } }, "gravity.low"],
    ["a body that is not there", { body: "nothing" }, "body"],
    ["a cone that is none", { bisqueCone: "4.5" }, "bisqueCone"],
    ["half a coat", { coats: "0.5" }, "coats"],
    ["a dip of nothing", { dipSeconds: "0" }, "dipSeconds"],
    ["a shelf life of nothing", { keepsMonths: "0" }, "keepsMonths"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const id = await fill();
    const answer = await direct(id, json);
    expect(answer.status).toBe(422);
    expect(await errorsOf(answer)).toMatchObject([{ path }]);
    expect((await read(id)).directions).toBeNull();
  });
});

describe("reports of a bucket", () => {
  it.each<[Who, string, number]>([
    ["visitor", "lumpy", 401],
    ["author", "lumpy", 201],
    ["other member", "contaminated", 201],
    ["manager", "no label", 201],
  ])("answers the %s who reports it %s with %i", async (who, trouble, status) => {
    const id = await fill();
    expect((await report(id, { trouble }, who)).status).toBe(status);
    const bucket = await read(id);
    expect(bucket.reports.map((each) => each.trouble)).toEqual(status === 201 ? [trouble] : []);
    const held = bucket.changes.some(({ why }) => why === "Reported as contaminated.");
    expect(held).toBe(trouble === "contaminated");
  });

  it("holds a contaminated one in one tap, and flags it until a manager says what was done", async () => {
    const id = await fill();
    const tap = { form: { trouble: "contaminated", idempotencyKey: `tap${id}` } };
    const taps = await Promise.all(
      [0, 1].map(() => studio.send("author", `/buckets/${id}/reports`, tap)),
    );
    expect(taps.map(({ status }) => status)).toEqual([303, 303]);
    expect(await eventsOf(id)).toEqual(["bucket added", "bucket reported", "bucket changed"]);
    const bucket = await read(id);
    expect(bucket.changes).toMatchObject([{ is: "hold", why: "Reported as contaminated." }]);
    const [open] = bucket.reports;
    const flag = "contaminated. Nobody has said yet what was done.";
    expect(bucket.cautions.join(" ")).toContain(flag);
    for (const path of ["/buckets", `/buckets/${id}`])
      expect(await pageOf("other member", path)).toContain(flag);

    const path = `/bucket-reports/${open?.id}/answer`;
    const done = { method: "PUT", json: { done: "Thrown out by local rules." } };
    expect((await studio.send("reviewer", path, done)).status).toBe(403);
    expect((await studio.send("manager", path, { form: { done: "" } })).status).toBe(422);
    expect(await pageOf("manager", path)).toContain("What was done about it");
    const both = await Promise.all([0, 1].map(() => studio.send("manager", path, done)));
    expect(both.map(({ status }) => status).sort()).toEqual([200, 422]);
    const after = await read(id);
    expect([after.reports, after.is]).toEqual([[], "hold"]);
    expect(await pageOf("author", `/buckets/${id}/reports`)).toContain(
      "Thrown out by local rules.",
    );
    const nonsense = "/bucket-reports/00000000-0000-7000-8000-000000000000/answer";
    expect((await studio.send("manager", nonsense, done)).status).toBe(404);
  });

  it("refuses what is no trouble", async () => {
    const id = await fill();
    const answer = await report(id, { trouble: "ugly" });
    expect(answer.status).toBe(422);
    expect(await errorsOf(answer)).toMatchObject([{ path: "trouble" }]);
    expect((await read(id)).reports).toEqual([]);
  });
});
