import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bucketUses } from "../../src/db/schema/index.ts";
import type { costJson } from "../../src/routes/cost-json.ts";
import { addSupplier } from "../buying.ts";
import { addBucket, buy, end, type Mix, tick } from "../mixes.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Cost = ReturnType<typeof costJson> & {
  mix?: string | null;
  shares?: { name: string | null; uses: number | null; amount: string }[] | null;
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

const costOf = (path: string, who: Who = "author") => studio.json<Cost>(who, path);
const glaze = () =>
  publish(studio, {
    lines: [
      ["quartz", "60"],
      ["kaolin", "40"],
      ["red-iron-oxide", "2", "addition"],
    ],
  });

describe("what a recipe costs", () => {
  it("nobody can say where no price is on record", async () => {
    const slug = await glaze();
    expect(await costOf(`/recipes/${slug}/cost`)).toMatchObject({ currency: null, lines: [] });
    const page = await (await studio.send("author", `/recipes/${slug}/cost`)).text();
    expect(page).toContain("No price is on record");
  });

  // By pencil, lots of 9.50 for 5 kg are 1.90 a kilogram: 60/102 of a kilogram of quartz are 1.1176,
  // 40/102 kg of kaolin on a list at 3.06 a kilogram 1.2, together 2.3176.
  it("is by the kilogram and by the litre, at the least where a price is missing", async () => {
    await buy(studio, "quartz");
    await addSupplier(studio, "Avocet Lane", { packs: [["kaolin", "1000", "3.06"]] });
    const slug = await glaze();
    const cost = await costOf(`/recipes/${slug}/cost?gravity=1.45`);
    expect(cost).toMatchObject({
      ...{ currency: "GBP", perKilogram: "2.3176", atLeast: true, without: ["Red iron oxide"] },
      lines: [
        { material: { slug: "quartz" }, pricePerKilogram: "1.9", cost: "1.1176" },
        { material: { slug: "kaolin" }, pricePerKilogram: "3.06", cost: "1.2" },
        { material: { slug: "red-iron-oxide" }, pricePerKilogram: null, cost: null },
      ],
      // 450 × 2.65/1.65 is 722.7 g dry, at 2.3176 a kilogram 1.675.
      litre: { specificGravity: "1.45", dryGrams: "722.7", cost: "1.675" },
    });
    const page = await (await studio.send("author", `/recipes/${slug}/cost?gravity=1.45`)).text();
    expect(page).toContain("At least 2.32 GBP for a kilogram");
    expect(page).toContain("At least 1.68 GBP for a litre of slurry");
    // The printed column: 1.12 and 1.20 are 2.32.
    const printed = [...page.matchAll(/<td class="number"[^>]*>(\d+\.\d\d)<\/td>/g)].map(Number1);
    expect(printed).toEqual([1.12, 1.2, 2.32]);
    const weights = [...page.matchAll(/<td class="number"[^>]*>(\d+\.\d)<\/td>/g)].map(Number1);
    expect(weights.at(-1)).toBe(1000);
    expect(weights.slice(0, -1).reduce((sum, each) => sum + each, 0)).toBeCloseTo(1000, 9);
  });

  it("is by what was paid whatever a list asks, and else by the list that asks least", async () => {
    await addSupplier(studio, "Curlew Yard", {
      packs: [
        ["quartz", "1000", "5"],
        ["kaolin", "100", "0.29"],
        ["kaolin", "25000", "80"],
      ],
    });
    const { lines } = await costOf(`/recipes/${await glaze()}/cost`);
    expect(lines.map(({ pricePerKilogram }) => pricePerKilogram)).toEqual(["1.9", "2.9", null]);
  });

  it("is in the studio's currency only", async () => {
    const settings = { name: "Saltmarsh Lane Studio", showsPublic: true, scaleGrams: "0.1" };
    const set = (currency: string) =>
      studio.send("manager", "/studio", { method: "PUT", json: { ...settings, currency } });
    await set("EUR");
    const cost = await costOf(`/recipes/${await glaze()}/cost`);
    expect(cost).toMatchObject({ currency: "EUR", total: "0" });
    expect(cost.without).toHaveLength(3);
    await set("");
  });

  it.each([
    ["gravity=0.9", "gravity"],
    ["gravity=3", "gravity"],
    ["revision=first", "revision"],
  ])("refuses %s by its field", async (query, path) => {
    const sent = { accept: "application/json" };
    const answer = await studio.send("author", `/recipes/${await glaze()}/cost?${query}`, sent);
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path }] });
  });
});

describe("what a bucket cost", () => {
  async function mixed(): Promise<{ bucket: string; mix: string }> {
    const bucket = await addBucket(studio, await glaze());
    const json = { grams: "1000", scaleGrams: "1" };
    const opened = await studio.send("manager", `/buckets/${bucket}/mixes`, { json });
    const { id, lines } = (await opened.json()) as Mix;
    const lots: Record<string, string> = {
      quartz: await buy(studio, "quartz", { packPrice: "10" } as { mark?: string }),
      kaolin: await buy(studio, "kaolin", { packPrice: "20" } as { mark?: string }),
    };
    // Bought later and dearer: not what went in.
    await buy(studio, "quartz", { packPrice: "99" } as { mark?: string });
    for (const { n, grams, material } of lines) {
      const lot = lots[material.slug];
      await tick(studio, "author", id, { n, grams, ...(lot && { lot }) });
    }
    await end(studio, "manager", id, { finish: { waterGrams: "900" } });
    return { bucket, mix: id };
  }

  it("is by the recipe until something is mixed into it", async () => {
    const bucket = await addBucket(studio, await glaze());
    expect(await costOf(`/buckets/${bucket}/cost`)).toMatchObject({ mix: null, shares: null });
  });

  // By pencil: 600 g at 2.00 and 400 g at 4.00 a kilogram are 1.20 and 1.60, 2.80.
  it("is by what went in and what was paid for it, shared as evenly as coins can be", async () => {
    const { bucket, mix } = await mixed();
    const cost = await costOf(`/buckets/${bucket}/cost?shares=3`);
    expect(cost).toMatchObject({ mix, grams: "1020", total: "2.8", without: ["Red iron oxide"] });
    expect(cost.shares?.map(({ amount }) => amount)).toEqual(["0.94", "0.93", "0.93"]);
    const page = await (await studio.send("author", `/buckets/${bucket}/cost?shares=3`)).text();
    expect(page).toContain("In 3 equal shares: 1 × 0.94 GBP and 2 × 0.93 GBP.");
  });

  it("is shared by who used it since", async () => {
    const { bucket } = await mixed();
    expect((await costOf(`/buckets/${bucket}/cost`)).shares).toBeNull();
    const at = new Date(Date.now() + 60_000);
    const { author, reviewer } = studio.ids;
    for (const by of [author, author, author, reviewer])
      await studio.db
        .insert(bucketUses)
        .values({ id: uuidv7(), bucketId: bucket, what: "", by, at });
    expect((await costOf(`/buckets/${bucket}/cost`)).shares).toEqual([
      { name: "Rukmini Vale", uses: 3, amount: "2.10" },
      { name: "Tam Pellew", uses: 1, amount: "0.70" },
    ]);
  });
});

describe("what a powder cost over time", () => {
  it("stands on its page, drawn and in a table, for people of the studio", async () => {
    const { prices } = await studio.json<{ prices: { from: string; packPrice: string }[] }>(
      "author",
      "/materials/kaolin",
    );
    expect(prices.map(({ from }) => from)).toContain("list");
    expect(prices.map(({ from }) => from)).toContain("lot");
    const page = await (await studio.send("author", "/materials/kaolin")).text();
    expect(page).toContain("<title>What Kaolin cost over time</title>");
    expect(page).toContain("3.06 GBP, on a list");
    expect(await studio.json("visitor", "/materials/kaolin")).toMatchObject({ prices: null });
    const seen = await (await studio.send("visitor", "/materials/kaolin")).text();
    expect(seen).not.toContain("over time");
  });
});

const Number1 = ([, digits]: RegExpMatchArray): number => Number(digits);
