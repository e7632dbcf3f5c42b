import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { packs as stored } from "../../src/db/schema/index.ts";
import { addSupplier } from "../buying.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Pack = {
  material: { slug: string };
  packGrams: string;
  packPrice: string;
  currency: string;
  pricePerKilogram: string;
  from: string;
};
type Supplier = { packs: Pack[]; terms: unknown; lots: { material: { slug: string } }[] };

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const read = (slug: string) => studio.json<Supplier>("author", `/suppliers/${slug}`);
const pack = (slug: string, json: Record<string, unknown>) =>
  studio.send("manager", `/suppliers/${slug}/packs`, { json });
const quartz = { material: "quartz", packGrams: "5000", packPrice: "7.5", currency: "gbp" };
const buyLot = (supplier: string, packPrice: string) =>
  studio.send("manager", "/materials/quartz/lots", {
    json: { supplier, packGrams: "5000", packPrice, currency: "GBP", grams: "5000" },
  });

describe("what a supplier sells", () => {
  it("is a pack at its price, and the newest word on it counts", async () => {
    const slug = await addSupplier(studio, "Heron Wharf");
    const answer = await pack(slug, quartz);
    expect(answer.status).toBe(201);
    // By pencil: 7.50 for 5 kg.
    expect(await answer.json()).toMatchObject({ packPrice: "7.50", pricePerKilogram: "1.5" });
    await pack(slug, { ...quartz, packPrice: "8.00" });
    await pack(slug, { ...quartz, packGrams: "25000", packPrice: "30.1234" });
    expect((await read(slug)).packs).toMatchObject([
      { material: { slug: "quartz" }, packGrams: "5000", packPrice: "8.00", from: "list" },
      { packGrams: "25000", packPrice: "30.1234", currency: "GBP" },
    ]);
    const page = await (await studio.send("author", `/suppliers/${slug}`)).text();
    expect(page).toContain("30.1234 GBP");
    expect(page).not.toContain("No longer sold");
  });

  it("costs what was paid for a lot where that is newer, until the list is", async () => {
    const slug = await addSupplier(studio, "Curlew Yard", { packs: [["quartz", "5000", "7.50"]] });
    expect((await buyLot(slug, "9.25")).status).toBe(201);
    const paid = await read(slug);
    expect(paid.packs).toMatchObject([{ packPrice: "9.25", from: "lot" }]);
    expect(paid.lots).toMatchObject([{ material: { slug: "quartz" } }]);
    await pack(slug, { ...quartz, packPrice: "9.00" });
    expect((await read(slug)).packs).toMatchObject([{ packPrice: "9.00", from: "list" }]);
  });

  it("is no longer sold once a manager says so, and again once it is bought", async () => {
    const slug = await addSupplier(studio, "Plover Stores", {
      packs: [["quartz", "5000", "7.50"]],
    });
    const form = { material: "quartz", packGrams: "5000", stillSold: "false" };
    const answer = await studio.send("manager", `/suppliers/${slug}/packs`, { form });
    expect(answer.status).toBe(303);
    expect((await read(slug)).packs).toEqual([]);
    expect((await pack(slug, { ...form, stillSold: false })).status).toBe(422);
    await buyLot(slug, "7.90");
    expect((await read(slug)).packs).toMatchObject([{ packPrice: "7.90" }]);
    const record = await (await studio.send("manager", "/events?subject=supplier")).text();
    expect(record).toContain("said that a pack of 5000 g is no longer sold");
  });

  it.each<[string, Record<string, unknown>, string]>([
    ["a powder that nobody knows", { material: "moon dust" }, "material"],
    ["a name that only sounds like one", { material: "Quarts" }, "material"],
    ["a pack of nothing", { packGrams: "0" }, "packGrams"],
    ["no price", { packPrice: undefined }, "packPrice"],
    ["no currency", { currency: undefined }, "currency"],
    ["a field that is none", { colour: "white" }, "colour"],
  ])("refuses %s by its field, and keeps nothing", async (what, different, path) => {
    const slug = await addSupplier(studio, `Sanderling Supplies, ${what}`);
    const before = await studio.db.$count(stored);
    const answer = await pack(slug, { ...quartz, ...different });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path }] });
    expect(await studio.db.$count(stored)).toBe(before);
  });
});

describe("a pasted price list", () => {
  const paste = (slug: string, text: string) =>
    studio.send("manager", `/suppliers/${slug}/price-list`, { json: { text, currency: "GBP" } });

  it("is read with its heading, in any of three separators, and put on record at once", async () => {
    const slug = await addSupplier(studio, "Godwit Minerals");
    const text = 'Powder;grams;price\nKaolin;25000;26.90\n\n"whiting";1000;2.15\n';
    expect((await paste(slug, text)).status).toBe(201);
    expect((await paste(slug, "quartz\t5000\t7.50")).status).toBe(201);
    expect((await paste(slug, "quartz, 1000, 2")).status).toBe(201);
    expect(
      (await read(slug)).packs.map(({ material, packGrams }) => [material.slug, packGrams]),
    ).toEqual([
      ["kaolin", "25000"],
      ["quartz", "1000"],
      ["quartz", "5000"],
      ["whiting", "1000"],
    ]);
  });

  it("has its faults told by their lines, and nothing of it is kept", async () => {
    const slug = await addSupplier(studio, "Dunlin and Daughters");
    const text = "kaolin,25000,26.90\nmoon dust,1000,2\nquartz,0,2\nwhiting,1000";
    const answer = await paste(slug, text);
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { says: string }[] };
    expect(errors.map(({ says }) => says.slice(0, 7)).sort()).toEqual([
      "Line 2:",
      "Line 3:",
      "Line 4:",
    ]);
    expect((await read(slug)).packs).toEqual([]);
    const form = { text, currency: "GBP" };
    const page = await (
      await studio.send("manager", `/suppliers/${slug}/price-list`, { form })
    ).text();
    expect(page).toContain("moon dust,1000,2");
    expect(page).toContain("Line 2:");
  });
});

describe("what sending costs", () => {
  it("is what was put down last", async () => {
    const terms = { region: "England", carriage: "6.95", freeFrom: "75" };
    const slug = await addSupplier(studio, "Knot and Stint", { terms });
    expect((await read(slug)).terms).toMatchObject({ ...terms, freeFrom: "75.00" });
    const form = { carriage: "7", currency: "gbp" };
    const answer = await studio.send("manager", `/suppliers/${slug}/terms`, { form });
    expect(answer.headers.get("location")).toBe(`/suppliers/${slug}#terms`);
    expect((await read(slug)).terms).toMatchObject({
      ...{ region: "", carriage: "7.00", freeFrom: null, currency: "GBP" },
    });
    const refused = await studio.send("manager", `/suppliers/${slug}/terms`, {
      method: "PUT",
      json: { carriage: "-1", currency: "GBP" },
    });
    expect(await refused.json()).toMatchObject({ errors: [{ path: "carriage" }] });
  });
});
