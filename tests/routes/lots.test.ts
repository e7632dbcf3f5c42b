import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { lots as stored } from "../../src/db/schema/index.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Lot = {
  id: string;
  supplier: { slug: string };
  analysis: { id: string } | null;
  analysisIs: string;
  pricePerKilogram: string;
  currency: string;
};

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  for (const name of ["Quayside Ceramics", "Fen Road Minerals"])
    await studio.send("manager", "/suppliers", { json: { name } });
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const bought = {
  supplier: "quayside-ceramics",
  packGrams: "25000",
  packPrice: "31.50",
  currency: "GBP",
  grams: "50000",
};
const lotsOf = async (slug: string, who: Who = "author") =>
  (await studio.json<{ items: Lot[] }>(who, `/materials/${slug}/lots`)).items;
const suppliers = () => studio.json<{ items: { slug: string }[] }>("author", "/suppliers");

describe("suppliers", () => {
  it.each<[Who, number, number]>([
    ["visitor", 401, 401],
    ["author", 200, 403],
    ["other member", 200, 403],
    ["reviewer", 200, 201],
    ["manager", 200, 201],
  ])("are shown to the %s with %i and added with %i", async (who, read, added) => {
    expect((await studio.send(who, "/suppliers")).status).toBe(read);
    const name = `Sold by the ${who}`;
    const answer = await studio.send(who, "/suppliers", { json: { name, about: "By van." } });
    expect(answer.status).toBe(added);
    const slugs = (await suppliers()).items.map(({ slug }) => slug);
    expect(slugs.includes(`sold-by-the-${who.replace(" ", "-")}`)).toBe(added === 201);
  });

  it("are on record once, whatever the letter case", async () => {
    const form = { name: "QUAYSIDE  ceramics", about: "Again." };
    const answer = await studio.send("manager", "/suppliers", { form });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('href="#field-name"');
    expect(page).toContain('value="QUAYSIDE  ceramics"');
    expect(page).toMatch(/<textarea[^>]*>Again\.<\/textarea>/);
  });

  it("are added by a form that leads back to them", async () => {
    const answer = await studio.send("reviewer", "/suppliers", { form: { name: "Third of them" } });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/suppliers"]);
    const page = await (await studio.send("author", "/suppliers")).text();
    expect(page).toContain("Third of them");
    expect(page).not.toContain("Add the supplier");
  });
});

describe("lots", () => {
  it.each<[Who, number, number]>([
    ["visitor", 401, 401],
    ["author", 200, 403],
    ["other member", 200, 403],
    ["reviewer", 200, 403],
    ["manager", 200, 201],
  ])("are shown to the %s with %i and added with %i", async (who, read, added) => {
    const path = "/materials/kaolin/lots";
    const before = (await lotsOf("kaolin")).length;
    expect((await studio.send(who, path, { accept: "application/json" })).status).toBe(read);
    const form = await studio.send(who, `${path}/new`);
    expect(form.status).toBe(added === 201 ? 200 : added);
    expect((await studio.send(who, path, { json: bought })).status).toBe(added);
    expect((await lotsOf("kaolin")).length - before).toBe(added === 201 ? 1 : 0);
  });

  it("tell what a kilogram costs, and that nobody analysed this lot", async () => {
    const path = "/materials/quartz/lots";
    const answer = await studio.send("manager", path, { json: bought });
    expect(answer.headers.get("location")).toBe("/materials/quartz#lots");
    // By pencil: 31.50 for 25 kg.
    expect(await answer.json()).toMatchObject({
      pricePerKilogram: "1.26",
      analysis: null,
      analysisIs: "not this lot's analysis",
    });
    const page = await (await studio.send("author", "/materials/quartz")).text();
    expect(page).toContain("1.26 GBP");
    expect(page).toContain("not this lot's analysis".replace("'", "&#39;"));
    const seen = await (await studio.send("visitor", "/materials/quartz")).text();
    expect(seen).not.toContain("GBP");
    expect(await studio.json("visitor", "/materials/quartz")).toMatchObject({ lots: null });
  });

  it("stand newest first, with the supplier by name and the analysis that came with them", async () => {
    const { analyses } = await studio.json<{ analyses: { id: string }[] }>(
      "author",
      "/materials/whiting",
    );
    const analysis = analyses[0]!.id;
    const path = "/materials/whiting/lots";
    await studio.send("manager", path, { json: bought });
    const form = {
      ...bought,
      supplier: "Fen Road Minerals",
      currency: "gbp",
      analysis,
      mark: "W 7",
    };
    const answer = await studio.send("manager", path, { form });
    expect([answer.status, answer.headers.get("location")]).toEqual([
      303,
      "/materials/whiting#lots",
    ]);
    expect(await lotsOf("whiting")).toMatchObject([
      { supplier: { slug: "fen-road-minerals" }, analysis: { id: analysis }, currency: "GBP" },
      { supplier: { slug: "quayside-ceramics" }, analysis: null },
    ]);
    const last = (await listEvents(studio.db, { limit: 1000 })).at(-1);
    expect(last).toMatchObject({ kind: "lot added", subject: "lot", detail: { analysis } });
    const record = await (await studio.send("manager", "/events")).text();
    expect(record).toContain("put a lot of");
  });

  it.each<[string, Record<string, unknown>, string]>([
    ["a supplier that nobody knows", { ...bought, supplier: "nobody" }, "supplier"],
    ["a pack of nothing", { ...bought, packGrams: "0" }, "packGrams"],
    ["a pack weighed to a hair", { ...bought, packGrams: "1.0001" }, "packGrams"],
    ["a price below nothing", { ...bought, packPrice: "-1" }, "packPrice"],
    ["a price that is no number", { ...bought, packPrice: "1e3" }, "packPrice"],
    ["a currency by its sign", { ...bought, currency: "£" }, "currency"],
    ["no weight", { ...bought, grams: undefined }, "grams"],
    ["an analysis that is none", { ...bought, analysis: "mine" }, "analysis"],
    [
      "an analysis of nothing on record",
      { ...bought, analysis: "01890000-0000-7000-8000-000000000000" },
      "analysis",
    ],
    ["a field that is none", { ...bought, colour: "white" }, "colour"],
  ])("refuse %s, by its field, and keep nothing", async (_, json, path) => {
    const before = await studio.db.$count(stored);
    const answer = await studio.send("manager", "/materials/kaolin/lots", { json });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path }] });
    expect(await studio.db.$count(stored)).toBe(before);
  });

  it("refuse the analysis of another powder", async () => {
    const { analyses } = await studio.json<{ analyses: { id: string }[] }>(
      "author",
      "/materials/quartz",
    );
    const json = { ...bought, analysis: analyses[0]!.id };
    const answer = await studio.send("manager", "/materials/kaolin/lots", { json });
    expect(answer.status).toBe(422);
  });

  it("show the form again with what was typed in it", async () => {
    const form = { ...bought, packGrams: "a sack", mark: "PF 2501" };
    const answer = await studio.send("manager", "/materials/kaolin/lots", { form });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('value="a sack"');
    expect(page).toContain('value="PF 2501"');
    expect(page).toMatch(/<option value="quayside-ceramics" selected/);
  });

  it("are of a material that is there", async () => {
    const answer = await studio.send("manager", "/materials/moon-dust/lots", { json: bought });
    expect(answer.status).toBe(404);
  });
});
