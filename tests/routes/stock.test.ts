import { Decimal } from "decimal.js";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { stockMoves } from "../../src/db/schema/index.ts";
import { listWaiting } from "../../src/db/waiting.ts";
import { buy, openMix, tick, undo } from "../mixes.ts";
import { stockShelf } from "../shelf.ts";
import { count, readLot, recall, take } from "../stock.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Item = {
  material: { slug: string };
  totalGrams: string;
  usableGrams: string;
  usedPerWeekGrams: string;
  lineGrams: string;
  lineIs: string;
  low: boolean;
  lastsWeeks: number | null;
  lots: { id: string; leftGrams: string; age: string }[];
};

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();
const stockOf = async (slug: string, query = ""): Promise<Item | undefined> =>
  (await studio.json<{ items: Item[] }>("author", `/stock${query}`)).items.find(
    ({ material }) => material.slug === slug,
  );
const lowAt = async (now = new Date()) =>
  (
    await listWaiting(studio.db, { reader: { id: studio.ids.manager, role: "manager" }, now })
  ).filter(({ kind }) => kind === "stock-low");
const drawLine = (slug: string, grams: string | null) =>
  studio.send("manager", `/materials/${slug}/stock-line`, { method: "PUT", json: { grams } });
const inDays = (days: number): string =>
  new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

describe("a lot", () => {
  it("shows what is left, every move with who and why, and what it is in", async () => {
    const lot = await buy(studio, "potash-feldspar", { grams: "5000", mark: "F-77" });
    const mix = await openMix(studio);
    await tick(studio, "author", mix.id, { n: 1, grams: "400.5", lot });
    expect((await take(studio, "other member", lot, "99.5")).status).toBe(201);
    const counted = await count(studio, "reviewer", lot, "4450");
    expect(await counted.json()).toMatchObject({
      grams: "4450",
      difference: "-50",
      says: "50 g less than on record",
    });
    expect(await readLot(studio, lot)).toMatchObject({
      material: { slug: "potash-feldspar" },
      analysisIs: "not this lot's analysis",
      leftGrams: "4450",
      usedPercent: 11,
      in: [{ mix: mix.id, bucket: { name: "Tall grey bucket" }, grams: "400.5" }],
      moves: [
        { because: "stocktake", grams: "-50", leftGrams: "4450", by: "Tam Pellew" },
        { because: "other use", grams: "-99.5", leftGrams: "4500", why: "For trials." },
        { because: "mix", grams: "-400.5", leftGrams: "4599.5", mix: { id: mix.id } },
      ],
    });
    const page = await pageOf("author", `/lots/${lot}`);
    for (const said of ["4450 g", "−50 g", "For trials.", `/mixes/${mix.id}`, "doubled"])
      expect(page).toContain(said);
    const events = await listEvents(studio.db, { subjectId: lot, limit: 9 });
    expect(events.map(({ kind }) => kind)).toEqual(["lot added", "lot used", "lot counted"]);
    const record = await pageOf("manager", "/events?subject=lot");
    expect(record).toContain(`href="/lots/${lot}"`);
  });

  it("gets back what was taken back, and is in no mix then", async () => {
    const lot = await buy(studio, "potash-feldspar", { grams: "5000" });
    const mix = await openMix(studio);
    await tick(studio, "author", mix.id, { n: 1, grams: "400", lot });
    await undo(studio, "author", mix.id, { n: 1 });
    expect(await readLot(studio, lot)).toMatchObject({
      leftGrams: "5000",
      in: [],
      moves: [{ because: "undone", grams: "400" }, { because: "mix" }],
    });
  });

  it("does not tell of a bucket that the reader may not know of", async () => {
    const lot = await buy(studio, "potash-feldspar", { grams: "5000" });
    const mix = await openMix(studio);
    await tick(studio, "author", mix.id, { n: 1, grams: "400", lot });
    const visibility = { method: "PUT", json: { shownTo: "private" } };
    await studio.send("author", `/recipes/${mix.recipe.slug}/visibility`, visibility);
    const seen = await studio.json("other member", `/lots/${lot}`);
    expect(seen).toMatchObject({ in: [], moves: [{ grams: "-400", mix: null }] });
    expect(await studio.json("author", `/lots/${lot}`)).toMatchObject({ in: [{ mix: mix.id }] });
  });

  it("keeps the day that it is best before, and says how near that is", async () => {
    const path = "/materials/kaolin/lots";
    await buy(studio, "kaolin");
    const given = {
      supplier: "quayside-ceramics",
      packGrams: "5000",
      packPrice: "9",
      grams: "5000",
    };
    for (const [days, age] of [
      [-1, "expired"],
      [0, "soon"],
      [30, "soon"],
      [32, "good"],
    ] as const) {
      const form = { ...given, currency: "GBP", bestBefore: inDays(days) };
      const answer = await studio.send("manager", path, { form, accept: "application/json" });
      const { id } = (await answer.json()) as { id: string };
      expect(await readLot(studio, id)).toMatchObject({ bestBefore: inDays(days), age });
    }
    expect(await pageOf("author", "/materials/kaolin")).toContain("Past its day");
    const wrong = await studio.send("manager", path, {
      form: { ...given, currency: "GBP", bestBefore: "soon" },
    });
    expect(wrong.status).toBe(422);
    expect(await wrong.text()).toContain('href="#field-bestBefore"');
  });

  it.each([
    ["counts", { grams: "-1" }, "grams"],
    ["counts", { grams: "1.00001" }, "grams"],
    ["uses", { grams: "0", why: "x" }, "grams"],
    ["uses", { grams: "5" }, "why"],
  ])("refuses %s of %j at %s, and moves nothing", async (calls, json, path) => {
    const lot = await buy(studio, "whiting", { grams: "700" });
    const answer = await studio.send("author", `/lots/${lot}/${calls}`, { json });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as { errors: unknown }).errors).toMatchObject([{ path }]);
    const form: Record<string, string> = { why: "", ...json };
    const page = await studio.send("author", `/lots/${lot}/${calls}`, { form });
    expect(await page.text()).toContain(`href="#field-${path}"`);
    expect((await readLot(studio, lot)).moves).toEqual([]);
  });

  it("is known by its id alone", async () => {
    for (const id of ["7", uuidv7()]) {
      expect((await studio.send("author", `/lots/${id}`)).status).toBe(404);
      expect((await count(studio, "author", id, "5")).status).toBe(404);
    }
  });

  it("is counted once for a double tap", async () => {
    const lot = await buy(studio, "whiting", { grams: "700" });
    const form = { grams: "650", idempotencyKey: uuidv7() };
    await Promise.all([0, 1].map(() => studio.send("author", `/lots/${lot}/counts`, { form })));
    expect((await readLot(studio, lot)).moves).toHaveLength(1);
  });
});

describe("the count of everything", () => {
  it("skips what was left empty, and puts the rest on record at once", async () => {
    const [one, other] = [
      await buy(studio, "quartz", { grams: "100", mark: "Q-1" }),
      await buy(studio, "quartz", { grams: "200", mark: "Q-2" }),
    ];
    const used = await buy(studio, "quartz", { grams: "0", mark: "Q-3" });
    const sheet = await pageOf("author", "/stock/count");
    expect(sheet).toContain(one);
    expect(sheet).not.toContain(used);
    const form = {
      "counts.0.lot": one,
      "counts.0.grams": "",
      "counts.1.lot": other,
      "counts.1.grams": "150",
      why: "Spilt.",
    };
    const answer = await studio.send("author", "/stock/counts", { form });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/stock"]);
    expect((await readLot(studio, one)).moves).toEqual([]);
    expect(await readLot(studio, other)).toMatchObject({
      leftGrams: "150",
      moves: [{ grams: "-50", why: "Spilt." }],
    });
  });

  it("shows a fault at its row with all that was typed, and writes nothing", async () => {
    const one = await buy(studio, "quartz", { grams: "100" });
    const other = await buy(studio, "quartz", { grams: "200" });
    const form = {
      "counts.0.lot": other,
      "counts.0.grams": "much",
      "counts.1.lot": one,
      "counts.1.grams": "95",
    };
    const answer = await studio.send("author", "/stock/counts", { form });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    const place = new RegExp(`name="counts\\.(\\d+)\\.lot" value="${other}"`).exec(page)?.[1];
    expect(page).toContain(`href="#field-counts.${place}.grams"`);
    expect(page).toMatch(new RegExp(`name="counts\\.${place}\\.grams" value="much"`));
    expect(page).toContain('value="95"');
    expect((await readLot(studio, one)).moves).toEqual([]);
  });

  it("refuses nothing, a lot that is there twice, and one that is none", async () => {
    const lot = await buy(studio, "quartz", { grams: "100" });
    const counted = { lot, grams: "5" };
    for (const [counts, path] of [
      [[], ""],
      [[{ lot }], ""],
      [[counted, counted], "counts.1.lot"],
      [[counted, { lot: uuidv7(), grams: "1" }], "counts.1.lot"],
    ] as const) {
      const answer = await studio.send("author", "/stock/counts", { json: { counts } });
      expect(answer.status).toBe(422);
      expect(((await answer.json()) as { errors: unknown }).errors).toMatchObject([{ path }]);
    }
    expect((await readLot(studio, lot)).moves).toEqual([]);
  });
});

describe("what is in stock", () => {
  const slug = "barium-carbonate";
  const first = (items: readonly { id: string }[] | undefined) => items?.[0]?.id;

  it("says of a powder that nobody bought that there is none", async () => {
    expect(await stockOf(slug)).toMatchObject({ totalGrams: "0", lots: [], low: false });
    expect(await pageOf("author", "/stock")).toMatch(/No lot is on record of.*Barium carbonate/s);
  });

  it("adds up lots, and use over the last twelve weeks, into a line and how long it lasts", async () => {
    const lot = await buy(studio, slug, { grams: "1000" });
    await take(studio, "author", lot, "100");
    // Bought today: a week at the least. 100 g a week, 600 g for six weeks, 900 g last nine.
    expect(await stockOf(slug)).toMatchObject({
      totalGrams: "900",
      usableGrams: "900",
      usedPerWeekGrams: "100",
      lineGrams: "600",
      lineIs: "from use",
      low: false,
      lastsWeeks: 9,
    });
    await count(studio, "author", lot, "599.9999");
    expect(await stockOf(slug)).toMatchObject({ usedPerWeekGrams: "100", low: true });
    expect(first((await stockOf(slug, "?only=low"))?.lots)).toBe(lot);
    const [{ says, href, at } = { says: "", href: "", at: new Date() }] = await lowAt();
    expect(says).toContain("Barium carbonate is low: 600 g to use");
    expect(href).toBe(`/stock#${slug}`);
    await take(studio, "author", lot, "1");
    // It fell with the count: what is taken later does not tell anew.
    expect((await lowAt())[0]?.at).toEqual(at);
    const page = await pageOf("manager", "/stock");
    expect(page.indexOf(`id="${slug}"`)).toBeLessThan(page.indexOf('id="kaolin"'));
    expect(await pageOf("manager", "/waiting")).toContain("Powders that are low");
    expect(await pageOf("author", "/waiting")).not.toContain("Powders that are low");
  });

  it("leaves out what is recalled or past its day, and says so", async () => {
    const of = "loft-stain-coral";
    const lot = await buy(studio, of, { grams: "500" });
    const json = { supplier: "quayside-ceramics", packGrams: "300", packPrice: "1", grams: "300" };
    const old = { ...json, currency: "GBP", bestBefore: inDays(-2) };
    await studio.send("manager", `/materials/${of}/lots`, { json: old });
    expect(await stockOf(of)).toMatchObject({ totalGrams: "800", usableGrams: "500" });
    expect((await stockOf(of, "?only=expired"))?.lots).toHaveLength(2);
    expect(await stockOf(of, "?only=recalled")).toBeUndefined();
    await recall(studio, { lot });
    expect(await stockOf(of, "?only=recalled")).toMatchObject({ usableGrams: "0" });
    const page = await pageOf("author", "/stock");
    for (const said of ["Recalled: do not use", `Past its day, ${inDays(-2)}`])
      expect(page).toContain(said);
    const taken = await take(studio, "author", lot, "1");
    expect(taken.status).toBe(422);
    expect(await taken.text()).toContain("This lot is recalled: do not use it.");
    // Counting it as nothing is how it leaves the room.
    expect((await count(studio, "author", lot, "0")).status).toBe(201);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("lets managers draw the line: %s %i", async (who, status) => {
    const sent = { method: "PUT", json: { grams: "2500" } };
    const answer = await studio.send(who, "/materials/red-iron-oxide/stock-line", sent);
    expect(answer.status).toBe(status);
    const item = await stockOf("red-iron-oxide");
    expect([item?.lineGrams, item?.low]).toEqual(status === 200 ? ["2500", true] : ["0", false]);
  });

  it("goes back to what follows from use with null, or an empty field", async () => {
    const of = "red-iron-oxide";
    await drawLine(of, "300");
    expect(await pageOf("manager", `/materials/${of}/stock-line`)).toContain('value="300"');
    const form = { form: { grams: "" } };
    expect((await studio.send("manager", `/materials/${of}/stock-line`, form)).status).toBe(303);
    expect(await stockOf(of)).toMatchObject({ lineIs: "from use", low: false });
    const wrong = await drawLine(of, "-1");
    expect(wrong.status).toBe(422);
    expect((await drawLine("nothing", "1")).status).toBe(404);
  });

  it("waits for managers exactly where the page says low", async () => {
    const now = new Date();
    await drawLine("whiting", "100000");
    // Long ago and out of the twelve weeks: it counts in what is left, not in the use.
    const lot = await buy(studio, "kaolin", { grams: "4000" });
    const long = new Date(now.getTime() - 85 * 86_400_000);
    const move = { id: uuidv7(), lotId: lot, because: "other use", why: "x" } as const;
    await studio.db
      .insert(stockMoves)
      .values({ ...move, grams: new Decimal(-3999), by: studio.ids.author, at: long });
    await take(studio, "author", await buy(studio, "kaolin", { grams: "50" }), "3");
    const { items } = await studio.json<{ items: Item[] }>("author", "/stock");
    const low = items.filter((item) => item.low).map(({ material }) => `/stock#${material.slug}`);
    const waiting = (await lowAt()).map(({ href }) => href);
    expect(waiting.toSorted()).toEqual(low.toSorted());
    expect(low).toContain("/stock#whiting");
    expect(low).not.toContain("/stock#kaolin");
  });
});
