import { Decimal } from "decimal.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Expansion } from "../../src/chem/chemistry.ts";
import type { RestatedAnswer } from "../../src/routes/restate-json.ts";
import { mostWaiting, solver } from "../../src/work/solver.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { everybody, openTestStudio, type TestStudio } from "../studio.ts";

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  const lines = await stockShelf(studio);
  const [feldspar] = lines;
  if (!feldspar) throw new Error("no feldspar");
  const tinted = { ...feldspar, part: "addition" as const, amount: new Decimal(4) };
  await publishGlaze(studio, { name: "Ebb Clear", lines: [...lines, tinted] });
  await publishGlaze(studio, { name: "Hidden Ebb", lines, shownTo: "private" });
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await solver.end();
  await studio.close();
});

const ask = (who: (typeof everybody)[number], json: Record<string, unknown>) =>
  studio.send(who, "/restate", { json });
/** A member's question, since a visitor's two seconds may be up on a machine that is busy. */
async function restated(json: Record<string, unknown>): Promise<RestatedAnswer> {
  const answer = await ask("author", json);
  expect(answer.status).toBe(200);
  return (await answer.json()) as RestatedAnswer;
}

const shelf = ["potash-feldspar", "whiting", "quartz", "kaolin"];
const formula = (name: string, of: string) => ({ name, formula: of, ideal: true });
const pure = [
  formula("Feldspar", "K2O·Al2O3·6SiO2"),
  formula("Chalk", "CaCO3"),
  formula("Flint", "SiO2"),
  formula("Clay", "Al2Si2O5(OH)4"),
];
// H. A. Seger's cone 4, Tonindustrie-Zeitung 1886, p. 135: feldspar 83.55, CaCO3 35, SiO2 54,
// kaolin 25.90.
const cone4 = { K2O: "0.3", CaO: 0.7, Al2O3: "0.5", SiO2: "4" };

describe("POST /restate", () => {
  it.each(everybody)("finds Seger's batch for the %s", async (who) => {
    const answer = await ask(who, { target: { unity: cone4 }, shelf: pure });
    expect(answer.status).toBe(200);
    const found = (await answer.json()) as RestatedAnswer;
    expect(found).toMatchObject({ status: "exact", misses: [], withinDoubt: true });
    expect(found.worst).toBeLessThanOrEqual(1e-6);
    const total = 83.55 + 35 + 54 + 25.9;
    const printed: Record<string, number> = { Feldspar: 83.55, Chalk: 35, Flint: 54, Clay: 25.9 };
    expect(found.lines).toHaveLength(4);
    for (const { material, amount } of found.lines)
      expect(Number(amount)).toBeCloseTo((100 * (printed[material] ?? 0)) / total, 1);
  });

  it("gives a recipe back from its own shelf, with its additions kept as they are", async () => {
    const found = await restated({ target: { recipe: "ebb-clear" }, shelf });
    expect(found.status).toBe("exact");
    const base = found.lines.filter(({ part }) => part === "base");
    const amounts = Object.fromEntries(
      base.map(({ material, amount }) => [material, Math.round(Number(amount) * 1e4) / 1e4]),
    );
    expect(amounts).toEqual({ "potash-feldspar": 40, whiting: 20, quartz: 25, kaolin: 15 });
    expect(Decimal.sum(...base.map(({ amount }) => amount)).toFixed()).toBe("100");
    expect(found.lines.filter(({ part }) => part === "addition")).toEqual([
      expect.objectContaining({ material: "potash-feldspar", amount: "4" }),
    ]);
  });

  it("agrees with POST /chemistry on what its lines come to", async () => {
    const found = await restated({ target: { unity: cone4 }, shelf });
    const lines = found.lines.map(({ material, part, amount }) => ({ material, part, amount }));
    const answer = await studio.send("visitor", "/chemistry", { json: { lines } });
    const { unity } = (await answer.json()) as { unity: Record<string, { value: number }> };
    for (const [oxide, moles] of Object.entries(found.unity ?? {}))
      expect(unity[oxide]?.value).toBeCloseTo(moles, 9);
    expect(found.status).toBe("nearest");
    const far = found.misses.map(
      ({ wanted, got }) => Math.abs(got - wanted) / Math.max(wanted, 0.1),
    );
    expect(Math.max(...far)).toBeCloseTo(found.worst ?? 0, 9);
    expect(far.reduce((sum, miss) => sum + miss, 0)).toBeCloseTo(found.sum ?? 0, 5);
    for (const { because } of found.misses) expect(because).not.toBe("");
  });

  it("wants 0 of what lines lack, and leaves it free of a typed formula", async () => {
    const rutile = formula("Rutile clay", "Al2O3·2SiO2·0.2TiO2");
    const [feldspar, chalk, flint] = pure;
    const some = [feldspar, chalk, flint, rutile];
    const free = await restated({ target: { unity: cone4 }, shelf: some });
    expect(free.status).toBe("exact");
    expect(free.unity?.TiO2).toBeGreaterThan(0.01);
    const lines = pure.map((material, at) => ({ material, part: "base", amount: 10 + at }));
    const held = await restated({ target: { lines }, shelf: some });
    expect(held.status).toBe("nearest");
  });

  it("keeps bounds, materials that are required and those that are forbidden", async () => {
    const target = { unity: cone4 };
    const bounds = { Clay: { least: "20" } };
    const bound = await restated({ target, shelf: pure, bounds });
    const amountIn = (found: RestatedAnswer, name: string) =>
      Number(found.lines.find(({ material }) => material === name)?.amount ?? 0);
    expect(amountIn(bound, "Clay")).toBeGreaterThanOrEqual(20 - 1e-5);
    expect(bound.misses.map(({ because }) => because)).toContain(
      "The bound on Clay stands in the way.",
    );
    const zinc = formula("Zinc", "ZnO");
    const required = await restated({ target, shelf: [...pure, zinc], required: ["Zinc"] });
    expect(amountIn(required, "Zinc")).toBeCloseTo(0.1, 4);
    const forbidden = await restated({ target, shelf: pure, forbidden: ["Clay"] });
    expect(amountIn(forbidden, "Clay")).toBe(0);
    const few = await restated({ target, shelf: pure, most: 2 });
    expect(few.lines).toHaveLength(2);
  });

  it("holds the expansion, and says so where that stands in the way", async () => {
    const target = { recipe: "ebb-clear" };
    const free = await restated({ target, shelf });
    const by = (found: RestatedAnswer, model: string) =>
      found.figures?.expansion.models.find((each) => each.model === model);
    const was = by(free, "winkelmann-schott");
    expect(was?.got.value).toBeCloseTo(was?.wanted?.value ?? 0, 6);
    expect(free.figures?.expansion.says).toMatch(/nothing of fit/);
    const most = (was?.got.value ?? 0) - 0.5;
    const expansion = { model: "winkelmann-schott", most: most.toFixed(4) };
    const held = await restated({ target, shelf, expansion, keepAdditions: false });
    expect(held.status).toBe("nearest");
    const lines = held.lines.map(({ material, part, amount }) => ({ material, part, amount }));
    const answer = await studio.send("visitor", "/chemistry", { json: { lines } });
    const { expansion: models } = (await answer.json()) as { expansion: Expansion[] };
    const value = models.find(({ model }) => model === "winkelmann-schott")?.value ?? Infinity;
    expect(value).toBeLessThanOrEqual(Number(expansion.most) + 1e-6);
    expect(by(held, "winkelmann-schott")?.got.value).toBeCloseTo(value, 9);
    expect(held.misses.map(({ because }) => because)).toContain(
      "What is asked of the expansion stands in the way.",
    );
  });

  it("holds the cost of a kilogram by the newest lots, for people of the studio", async () => {
    await studio.send("manager", "/suppliers", { json: { name: "Quayside Ceramics" } });
    const packs = { "potash-feldspar": 30, whiting: 20, quartz: 10 };
    for (const [slug, packPrice] of Object.entries(packs)) {
      const lot = { supplier: "quayside-ceramics", packGrams: 10_000, packPrice, currency: "GBP" };
      const json = { ...lot, grams: 10_000 };
      const added = await studio.send("manager", `/materials/${slug}/lots`, { json });
      expect(added.status).toBe(201);
    }
    const target = { recipe: "ebb-clear" };
    const asked = async (json: Record<string, unknown>) =>
      (await (await ask("author", { target, ...json })).json()) as RestatedAnswer;
    const free = await asked({ shelf });
    expect(free.figures?.cost).toMatchObject({ currency: "GBP", got: { without: ["Kaolin"] } });

    const held = await asked({ shelf, cost: { most: "2" } });
    expect(held.leftOut).toEqual([
      {
        material: "kaolin",
        because: expect.stringMatching(/^Kaolin is left out, .* in GBP is known\.$/),
      },
    ]);
    const kilogram = held.lines
      .filter(({ part }) => part === "base")
      .reduce((sum, { material, amount }) => {
        const price = packs[material as keyof typeof packs] / 10;
        return sum + (Number(amount) / 100) * price;
      }, 0);
    expect(kilogram).toBeLessThanOrEqual(2 + 1e-6);
    expect(Number(held.figures?.cost?.got.perKilogram)).toBeCloseTo(kilogram, 4);
    const cheapest = await asked({ shelf, prefer: "cost" });
    expect(cheapest.lines.map(({ material }) => material)).not.toContain("kaolin");
    const euros = await asked({ shelf, cost: { most: "2", currency: "EUR" } });
    expect(euros).toMatchObject({ status: "none", because: "The shelf is empty." });

    const needed = await ask("author", { target, shelf, cost: { most: 2 }, required: ["kaolin"] });
    expect(needed.status).toBe(422);
    const visitor = await ask("visitor", { target, shelf, prefer: "cost" });
    expect(visitor.status).toBe(422);
    const { errors } = (await visitor.json()) as { errors: { path: string; says: string }[] };
    expect(errors).toEqual([{ path: "cost", says: expect.stringMatching(/people of the studio/) }]);
    const shown = (await (await ask("visitor", { target, shelf })).json()) as RestatedAnswer;
    expect(shown.figures?.cost).toBeUndefined();
  });

  it.each<[string, Record<string, unknown>, RegExp]>([
    ["an empty shelf", { shelf: [] }, /shelf is empty/],
    ["none to be used", { shelf: pure, most: 0 }, /No material may be used/],
    [
      "bounds that nothing meets",
      { shelf: pure, bounds: { Clay: { least: 60 }, Flint: { least: 60 } } },
      /bounds on Clay, Flint/,
    ],
    ["no flux", { shelf: pure.slice(2) }, /brings a flux/],
  ])("has words for %s", async (_, more, words) => {
    const found = await restated({ target: { unity: cone4 }, ...more });
    expect(found).toMatchObject({ status: "none", lines: [], unity: null });
    expect(found.because).toMatch(words);
  });

  it("says that nobody has an oxide", async () => {
    const found = await restated({ target: { unity: { ...cone4, CoO: "0.02" } }, shelf: pure });
    expect(found.misses).toContainEqual(
      expect.objectContaining({ oxide: "CoO", because: "No material of the shelf brings CoO." }),
    );
  });

  it.each<[string, Record<string, unknown>, number, string]>([
    ["nothing", {}, 422, "target"],
    ["lines and a formula", { target: { lines: [], unity: cone4 }, shelf }, 422, "target.lines"],
    ["a formula without a flux", { target: { unity: { SiO2: 4 } }, shelf }, 422, "target.unity"],
    ["an oxide that is none", { target: { unity: { Xx2O: 1 } }, shelf }, 422, "target.unity.Xx2O"],
    ["less than nothing", { target: { unity: { CaO: -1 } }, shelf }, 422, "target.unity.CaO"],
    ["a powder nobody knows", { target: { unity: cone4 }, shelf: ["unobtainium"] }, 422, "shelf.0"],
    [
      "a bound on a stranger",
      { target: { unity: cone4 }, shelf, bounds: { talc: { most: 1 } } },
      422,
      "bounds.talc",
    ],
    [
      "crossed bounds",
      { target: { unity: cone4 }, shelf, bounds: { quartz: { least: 9, most: 1 } } },
      422,
      "bounds.quartz.least",
    ],
    [
      "an expansion that moves with the glass",
      { target: { unity: cone4 }, shelf, expansion: { model: "appen", most: 7 } },
      422,
      "expansion.model",
    ],
    [
      "an expansion by no model",
      { target: { unity: cone4 }, shelf, prefer: "expansion" },
      422,
      "expansion.model",
    ],
    [
      "too many materials",
      { target: { unity: cone4 }, shelf: Array(10_000).fill("q") },
      422,
      "shelf",
    ],
    ["a recipe that is private", { target: { recipe: "hidden-ebb" }, shelf }, 404, "target.recipe"],
  ])("refuses %s in words", async (_, json, status, path) => {
    const answer = await ask("visitor", json);
    expect(answer.status).toBe(status);
    const { errors } = (await answer.json()) as { errors: { path: string; says: string }[] };
    expect(errors.map((error) => error.path)).toContain(path);
    for (const { says } of errors) expect(says).not.toBe("");
  });

  it("sends who comes when too many wait away for a while", async () => {
    const json = { target: { unity: cone4 }, shelf: pure };
    const all = await Promise.all(
      Array.from({ length: mostWaiting + 3 }, () => ask("author", json)),
    );
    const busy = all.filter(({ status }) => status === 503);
    for (const answer of busy) expect(Number(answer.headers.get("Retry-After"))).toBeGreaterThan(0);
    expect(all.filter(({ status }) => status === 200).length + busy.length).toBe(all.length);
    const visitors = await Promise.all([1, 2].map(() => ask("visitor", json)));
    expect(visitors.map(({ status }) => status).sort()).toEqual([200, 503]);
  });
});

describe("the page", () => {
  it("opens with a recipe in it and every material that could be used", async () => {
    const answer = await studio.send("visitor", "/restate?recipe=ebb-clear@1");
    const html = await answer.text();
    expect(html).toContain("ebb-clear@1");
    for (const slug of shelf) expect(html).toContain(`value="${slug}"`);
    const recipe = await (await studio.send("visitor", "/recipes/ebb-clear")).text();
    expect(recipe).toContain("/restate?recipe=ebb-clear@1");
  });

  it("restates from the boxes that were ticked, and says what it is not", async () => {
    const form = {
      "target.text": "ebb-clear",
      shelf: "potash-feldspar",
      allSold: "on",
      "bounds.kaolin.most": "5",
      "expansion.model": "hall",
      "expansion.least": "4",
      prefer: "loss",
      keepAdditions: "on",
    };
    const answer = await studio.send("author", "/restate", { form });
    expect(answer.status).toBe(200);
    const html = await answer.text();
    expect(html).toContain("Not the same glaze.");
    expect(html).toContain("a new tile");
    expect(html).toContain("The bound on Kaolin stands in the way.");
    expect(html).toContain("Loss on ignition, %");
    expect(html).toMatch(/value="hall" selected/);
    expect(html).toContain('name="revision.lines.0.material"');
    const bare = await studio.send("visitor", "/restate", { form: { ...form, keepAdditions: "" } });
    expect(await bare.text()).not.toContain(", on top");
  });

  it("takes its lines to the form of a new recipe, where nothing is published yet", async () => {
    const found = await restated({ target: { recipe: "ebb-clear" }, shelf });
    const hidden = Object.fromEntries(
      found.lines.flatMap(({ part, material }, row) => [
        [`revision.lines.${row}.part`, part],
        [`revision.lines.${row}.material`, material],
        [`revision.lines.${row}.amount`, "20"],
      ]),
    );
    const answer = await studio.send("author", "/recipes", {
      form: { ...hidden, "revision.cones.low": "5", change: "work-out" },
    });
    expect(answer.status).toBe(200);
    expect(await answer.text()).toContain('value="potash-feldspar"');
  });

  it("shows what was typed again beside what is wrong with it", async () => {
    const form = { "target.text": "no-such-glaze", shelf: "quartz", most: "few" };
    const answer = await studio.send("visitor", "/restate", { form });
    expect(answer.status).toBe(422);
    const html = await answer.text();
    expect(html).toContain("no-such-glaze");
    expect(html).toMatch(/value="quartz"[^>]*checked/);
  });
});
