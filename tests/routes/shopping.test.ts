import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { shoppingJson } from "../../src/routes/shopping-json.ts";
import { addSupplier, planBatch } from "../buying.ts";
import { buy } from "../mixes.ts";
import { publish, stockShelf } from "../shelf.ts";
import { count, recall } from "../stock.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type List = ReturnType<typeof shoppingJson>;

let studio: TestStudio;
/** Planned first: 1000 g of 60 quartz and 40 kaolin with 2 iron on top; then 2000 g of it. */
let plans: string[];
let recipe: string;

beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  await studio.send("manager", "/materials/quartz/names", {
    json: { name: "=Silica", region: "Northshire", caution: "Buy the fine one." },
  });
  await studio.send("manager", "/materials/whiting/names", {
    json: { name: "=Silica", region: "Elsewhere", caution: "Never for glass." },
  });
  recipe = await publish(studio, {
    lines: [
      ["quartz", "60"],
      ["kaolin", "40"],
      ["red-iron-oxide", "2", "addition"],
    ],
  });
  plans = [await planBatch(studio, recipe, "1000"), await planBatch(studio, recipe, "2000")];
  await addSupplier(studio, "Tern Quay", {
    packs: [
      ["quartz", "1000", "3.10"],
      ["quartz", "5000", "9.55"],
      ["kaolin", "1000", "4"],
    ],
    terms: { carriage: "6.95", freeFrom: "100", region: "Northshire" },
  });
  await addSupplier(studio, "Avocet Lane", { packs: [["kaolin", "500", "1.75"]] });
  await addSupplier(studio, "Far Shore", { packs: [["kaolin", "2000", "1"]], currency: "EUR" });
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const shop = (query = "", who: Who = "author") => studio.json<List>(who, `/shopping?${query}`);
const gbp = "currency=GBP";
const buying = (list: List) =>
  list.suppliers.flatMap(({ supplier, packs }) =>
    packs.map(
      ({ count: many, packGrams, material }) =>
        `${supplier.slug}: ${many} × ${packGrams} ${material.slug}`,
    ),
  );

describe("a shopping list", () => {
  // By pencil: 1800 quartz are two packs of 3.10, 6.20, and 6.95 to send; 1200 kaolin are three of
  // 1.75 without carriage, 5.25, against two of 4. Together 18.40.
  it("is the cheapest packs for all that is planned, and its columns add up", async () => {
    const list = await shop(gbp);
    expect(list.materials).toMatchObject([
      {
        material: { slug: "kaolin" },
        neededGrams: "1200",
        missingGrams: "1200",
        boughtGrams: "1500",
      },
      { material: { slug: "quartz" }, neededGrams: "1800", thereGrams: "0", boughtGrams: "2000" },
      { material: { slug: "red-iron-oxide" }, neededGrams: "60", notBought: "no price known" },
    ]);
    expect(buying(list)).toEqual(["avocet-lane: 3 × 500 kaolin", "tern-quay: 2 × 1000 quartz"]);
    expect(list).toMatchObject({ total: "18.40", forAll: "18.40", missingToAll: null });
    expect(list.suppliers).toMatchObject([
      { subtotal: "5.25", carriage: "0.00", carriageKnown: false, total: "5.25" },
      { subtotal: "6.20", carriage: "6.95", toFree: "93.80", total: "13.15" },
    ]);
    const sums = list.suppliers.flatMap(({ packs, carriage }) => [
      ...packs.map(({ sum }) => Number(sum)),
      Number(carriage),
    ]);
    expect(sums.reduce((all, sum) => all + sum, 0)).toBeCloseTo(Number(list.total), 9);
    expect(list.says.join(" ")).toContain("No price is known: Red iron oxide.");
    expect(list.says.join(" ")).toContain("Packs priced in EUR are left out");
    expect(list.says.join(" ")).toContain("What Avocet Lane takes for sending is not on record");
    expect(list.wishes).toMatchObject([{ met: true, lacks: ["Red iron oxide"] }, { met: true }]);
  });

  it("is for some of the plans where some are ticked", async () => {
    const list = await shop(`${gbp}&plans=${plans[0]}`);
    expect(list.materials.map(({ neededGrams }) => neededGrams)).toEqual(["400", "600", "20"]);
    expect(list.wishes).toHaveLength(1);
  });

  it("says each powder as its supplier knows it, with what it is mistaken for", async () => {
    const { suppliers } = await shop(gbp);
    expect(suppliers[1]?.packs).toMatchObject([
      {
        material: { name: "Quartz" },
        called: {
          ...{ name: "=Silica", caution: "Buy the fine one." },
          lookAlikes: [{ slug: "whiting", caution: "Never for glass." }],
        },
      },
    ]);
    const page = await (await studio.send("author", `/shopping?${gbp}`)).text();
    expect(page).toMatch(/=Silica \(<a href="\/materials\/quartz">Quartz<\/a>\)/);
    expect(page).toContain("Never for glass.");
    expect(page).toContain("Together 18.40 GBP.");
  });

  it("is a table for a spreadsheet, in which nothing is a formula", async () => {
    const path = `/shopping?${gbp}&format=csv`;
    const answer = await studio.send("author", path);
    expect(answer.headers.get("content-type")).toContain("text/csv");
    const text = await answer.text();
    expect(text).toContain("Tern Quay,'=Silica,Quartz,");
    expect(text).toContain(",total,,,,,,18.40,GBP\r\n");
    expect(text).not.toMatch(/(^|[,\n"])[=+@-]/);
    const asked = await studio.send("author", `/shopping?${gbp}`, { accept: "text/csv" });
    expect(await asked.text()).toBe(text);
  });

  it("meets the first plans within a budget, and says what all of it would take", async () => {
    // The first alone: a pack of quartz sent, 10.05, and one of kaolin, 1.75.
    const list = await shop(`${gbp}&budget=12`);
    expect(list.wishes.map(({ met }) => met)).toEqual([true, false]);
    expect(list).toMatchObject({ total: "11.80", forAll: "18.40", missingToAll: "6.40" });
    expect(list.says.join(" ")).toContain("6.40 GBP more would buy all of it, 18.40 GBP.");
    const none = await shop(`${gbp}&budget=1`);
    expect(none).toMatchObject({ total: "0.00", suppliers: [] });
    expect(none.says.join(" ")).toContain("The budget of 1.00 GBP reaches for none of it.");
    const page = await (await studio.send("author", `/shopping?${gbp}&budget=12`)).text();
    expect(page).toContain("Not within the budget.");
  });

  it("answers in words where nobody sells in that currency", async () => {
    const list = await shop("currency=SEK");
    expect(list).toMatchObject({ total: "0.00", suppliers: [], currency: "SEK" });
    expect(list.says.join(" ")).toContain("No price is known: Kaolin, Quartz, Red iron oxide.");
  });

  it.each([
    ["budget=0", "budget"],
    ["budget=-5", "budget"],
    ["currency=pounds", "currency"],
    ["plans=mine", "plans.0"],
    ["plans=01890000-0000-7000-8000-000000000000", "plans"],
    ["trials=01890000-0000-7000-8000-000000000000:0", "trials.0"],
    ["trials=01890000-0000-7000-8000-000000000000", "trials"],
  ])("refuses %s by its field", async (query, path) => {
    const sent = { accept: "application/json" };
    const answer = await studio.send("author", `/shopping?${query}`, sent);
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path }] });
  });

  it("counts what is there, but for what is recalled or past its day", async () => {
    const lot = await buy(studio, "quartz", { grams: "300" });
    await buy(studio, "quartz", { grams: "5000", bestBefore: "2026-01-01" } as { grams: string });
    const bad = await buy(studio, "quartz", { grams: "5000" });
    await recall(studio, { lot: bad });
    const quartz = async () =>
      (await shop(gbp)).materials.find(({ material }) => material.slug === "quartz");
    expect(await quartz()).toMatchObject({ thereGrams: "300", missingGrams: "1500" });
    await count(studio, "author", lot, "0");
    expect(await quartz()).toMatchObject({ thereGrams: "0", missingGrams: "1800" });
  });

  it("takes trials by grams a point, and what would then be low", async () => {
    const corner = { recipe };
    const made = await studio.send("author", "/trials", {
      json: {
        ...{ kind: "ladder", base: corner, addition: "red-iron-oxide", from: "1", to: "3" },
        ...{ steps: 2, name: "Iron ladder" },
      },
    });
    expect(made.status).toBe(201);
    const { id } = (await made.json()) as { id: string };
    const asked = `${gbp}&plans=${plans[0]}&trials=${id}:50`;
    const list = await shop(asked);
    expect(list.wishes[1]?.says).toBe("Iron ladder: 3 points of 50 g of base");
    const needed = (of: List, slug: string) =>
      of.materials.find(({ material }) => material.slug === slug)?.neededGrams;
    // Three points of 30 g quartz on top of the 600 g of the plan.
    expect(needed(list, "quartz")).toBe("690");
    const line = "/materials/whiting/stock-line";
    await studio.send("manager", line, { method: "PUT", json: { grams: "750" } });
    expect(needed(await shop(asked), "whiting")).toBeUndefined();
    expect(needed(await shop(`${asked}&low=1`), "whiting")).toBe("750");
    const page = await (await studio.send("author", `/shopping?${asked}&low=1`)).text();
    const ticked = [
      ...page.matchAll(/<input type="checkbox" name="(\w+)" (?:value="[^"]*" )?checked/g),
    ];
    expect(ticked.map(([, name]) => name)).toEqual(["plans", "trials", "low"]);
  });

  it("says where nothing is wanted, or a plan is not the reader's to know", async () => {
    const secret = await publish(studio, { who: "other member", shownTo: "private" });
    const id = await planBatch(studio, secret, "1000");
    expect((await shop(gbp)).says.join(" ")).toContain("1 planned batch.");
    expect((await shop(gbp, "manager")).wishes).toHaveLength(3);
    for (const plan of [...plans, id])
      await studio.send("manager", `/plans/${plan}/end`, { json: { is: "mixed" } });
    expect((await shop(gbp)).says).toEqual(["Nothing is planned and nothing is ticked."]);
  });
});
