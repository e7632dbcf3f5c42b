import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { AnsweredPlan, AnsweredReach } from "../../src/routes/shelf-plan-json.ts";
import { solver } from "../../src/work/solver.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Fault = { path: string; says: string };
type Lines = [material: string, amount: string, part?: "base" | "addition"][];

/** A shelf where every powder of the glaze can be bought, and one that adds nothing to it. */
const shelf = ["potash-feldspar", "whiting", "quartz", "kaolin", "barium-carbonate"];

const limeGlaze = (feldspar: number): Lines => [
  ["potash-feldspar", String(feldspar)],
  ["whiting", "20"],
  ["quartz", "25"],
  ["kaolin", "15"],
  ["red-iron-oxide", "2", "addition"],
];

describe("planning a shelf", () => {
  let studio: TestStudio;
  let lime: string;
  let soft: string;
  let barium: string;
  let hidden: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    lime = await publish(studio, { lines: limeGlaze(40) });
    soft = await publish(studio, { lines: limeGlaze(55) });
    const matt: Lines = [["barium-carbonate", "20"], ...limeGlaze(40)];
    barium = await publish(studio, { lines: matt, shownTo: "studio" });
    hidden = await publish(studio, { shownTo: "private" });
    await studio.send("manager", "/suppliers", { json: { name: "Quayside Ceramics" } });
  });
  afterAll(async () => {
    await solver.end();
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const post = async <Answer>(path: string, json: object, who: Who = "author") => {
    const answer = await studio.send(who, path, { json });
    return { status: answer.status, body: (await answer.json()) as Answer & { errors: Fault[] } };
  };
  const plan = (json: object, who?: Who) => post<AnsweredPlan>("/shelf-plan", json, who);
  const reach = (json: object, who?: Who) => post<AnsweredReach>("/shelf-reach", json, who);

  it("finds the shelf that reaches the most, and says why the rest is missed", async () => {
    const asked = { recipes: [lime, soft, barium], candidates: shelf, size: 4 };
    const { status, body } = await plan(asked);
    expect(status).toBe(200);
    expect(body.materials).toEqual(["kaolin", "potash-feldspar", "quartz", "whiting"]);
    expect(body.reached.map(({ recipe }) => recipe)).toEqual([lime, soft]);
    expect(body).toMatchObject({ proven: true, bound: 2, unused: [] });
    expect(body.missed).toHaveLength(1);
    expect(body.missed[0]?.recipe).toBe(barium);
    expect(body.missed[0]?.because).toMatch(/^It wants BaO 0\.\d+, which nothing there brings\./);
    expect(body.stopped).toBeUndefined();
    expect(body.seconds).toBeGreaterThanOrEqual(0);

    const again = await plan(asked);
    expect({ ...again.body, seconds: 0 }).toEqual({ ...body, seconds: 0 });
  });

  it("answers bases that the chemistry itself finds to be within the tolerance", async () => {
    const { body } = await plan({ recipes: [lime, barium], candidates: shelf, size: 5 });
    expect(body.reached).toHaveLength(2);
    for (const { recipe, lines, additions, worst } of body.reached) {
      const { head } = await studio.json<{
        head: { lines: { part: string; material: { slug: string }; amount: string }[] };
      }>("author", `/recipes/${recipe}`);
      const base = head.lines
        .filter(({ part }) => part === "base")
        .map(({ part, material, amount }) => ({
          part,
          material: material.slug ?? material,
          amount,
        }));
      const unityOf = async (of: object[]) =>
        (await post<{ unity: Record<string, { value: number }> }>("/chemistry", { lines: of })).body
          .unity;
      const wanted = await unityOf(base);
      const got = await unityOf(
        lines.map(({ material, part, amount }) => ({ material, part, amount })),
      );
      let largest = 0;
      for (const oxide of new Set([...Object.keys(wanted), ...Object.keys(got)])) {
        const [want, have] = [wanted[oxide]?.value ?? 0, got[oxide]?.value ?? 0];
        expect(Math.abs(have - want), oxide).toBeLessThanOrEqual(
          Math.max(0.05 * want, 0.01) + 1e-9,
        );
        largest = Math.max(largest, Math.abs(have - want) / Math.max(want, 0.1));
      }
      expect(worst).toBeCloseTo(largest, 9);
      expect(additions.map(({ material }) => material)).toEqual(["red-iron-oxide"]);
    }
    expect(body.stillToBeHad).toEqual([
      { material: "red-iron-oxide", name: "Red iron oxide", recipes: [lime, barium] },
    ]);
  });

  it("takes recipes and materials that come with the request, from anybody", async () => {
    const { status, body } = await plan(
      {
        recipes: [
          {
            name: "Two powders",
            lines: [
              { material: { name: "Wollastonite", formula: "CaSiO3" }, part: "base", amount: "60" },
              { material: "kaolin", part: "base", amount: "40" },
            ],
          },
          lime,
        ],
        candidates: [{ name: "Wollastonite", formula: "CaSiO3" }, "kaolin", "quartz", "whiting"],
        size: 2,
      },
      "visitor",
    );
    expect([status, body.errors]).toEqual([200, undefined]);
    expect(body.materials).toEqual(["kaolin", "Wollastonite"]);
    expect(body.reached).toMatchObject([{ recipe: "Two powders", worst: expect.any(Number) }]);
    expect(body.reached[0]?.lines.map(({ amount }) => Number(amount)).sort()).toEqual([40, 60]);
    expect(body.missed[0]?.because).toMatch(/^Not even with all the candidates\. It wants K2O/);
    expect(body.cost).toBeUndefined();
  });

  it("knows no recipe that its asker may not know of", async () => {
    const asked = { recipes: [lime, hidden], candidates: shelf, size: 2 };
    expect((await plan(asked, "other member")).status).toBe(404);
    expect((await plan(asked, "author")).status).toBe(200);
    expect((await plan({ ...asked, recipes: [barium] }, "visitor")).status).toBe(404);
    expect((await reach({ have: shelf, recipes: [hidden] }, "visitor")).status).toBe(404);
    const all = await plan({ all: true, candidates: shelf, size: 5 }, "visitor");
    expect([...all.body.reached, ...all.body.missed].map(({ recipe }) => recipe)).toEqual([
      lime,
      soft,
    ]);
  });

  it.each<[string, object, string, RegExp]>([
    ["no recipe", { candidates: shelf, size: 2 }, "recipes", /at least one recipe/],
    [
      "an empty list of recipes",
      { recipes: [], candidates: shelf, size: 2 },
      "recipes",
      /at least one recipe/,
    ],
    ["no candidate", { all: true, candidates: [], size: 1 }, "candidates", /at least one material/],
    ["a size of 0", { all: true, candidates: shelf, size: 0 }, "size", /between 1 and 40/],
    ["half a material", { all: true, candidates: shelf, size: 1.5 }, "size", /whole number/],
    [
      "a size over the candidates",
      { all: true, candidates: shelf, size: 6 },
      "size",
      /more materials than/,
    ],
    [
      "ten thousand candidates",
      { all: true, candidates: Array(10_000).fill("a"), size: 1 },
      "candidates",
      /At most 40/,
    ],
    [
      "a material that nobody has",
      { all: true, candidates: ["unobtainium"], size: 1 },
      "candidates.0",
      /no “unobtainium”/,
    ],
    [
      "one without an analysis",
      { all: true, candidates: ["kaolin", "loft-stain-coral"], size: 1 },
      "candidates.1",
      /no analysis/,
    ],
    [
      "one twice",
      { all: true, candidates: ["kaolin", "kaolin"], size: 1 },
      "candidates.1",
      /twice/,
    ],
    ["no tolerance", { all: true, candidates: shelf, size: 1, within: 0 }, "within", /above 0/],
    [
      "an oxide that nobody has",
      {
        recipes: [
          {
            name: "x",
            lines: [
              {
                material: { name: "y", analysis: { Xx2O: { percent: 3 } } },
                part: "base",
                amount: 1,
              },
            ],
          },
        ],
        candidates: shelf,
        size: 1,
      },
      "recipes.0",
      /./,
    ],
    [
      "a base of nothing",
      {
        recipes: [{ name: "x", lines: [{ material: "kaolin", part: "base", amount: 0 }] }],
        candidates: shelf,
        size: 1,
      },
      "recipes.0.lines",
      /totals 0/,
    ],
  ])("refuses %s, at its place and with a way out", async (_, asked, path, says) => {
    const { status, body } = await plan(asked);
    expect(status).toBe(422);
    expect(body.errors[0]?.path.startsWith(path)).toBe(true);
    expect(body.errors[0]?.says).toMatch(says);
  });

  it("holds a visitor to less than people of the studio", async () => {
    const thirteen = Array.from({ length: 13 }, (_, at) => ({
      name: `Quartz ${at}`,
      formula: "SiO2",
    }));
    const asked = { recipes: [lime], candidates: thirteen, size: 1 };
    expect((await plan(asked, "visitor")).body.errors[0]?.says).toMatch(/At most 12/);
    expect((await plan(asked, "author")).status).toBe(200);
    const many = { recipes: Array(21).fill(lime), candidates: shelf, size: 1 };
    expect((await plan(many, "visitor")).body.errors[0]?.says).toMatch(/At most 20/);
  });

  it("says of a base without a flux that there is nothing to hold a mix against", async () => {
    const slip = { name: "Slip", lines: [{ material: "quartz", part: "base", amount: "10" }] };
    const { body } = await plan({ recipes: [slip], candidates: shelf, size: 2 });
    expect(body.missed[0]?.because).toMatch(/no flux/);
    const dry = await plan({ recipes: [lime], candidates: ["quartz"], size: 1 });
    expect(dry.body.missed[0]?.because).toMatch(/None of the candidates brings a flux/);
  });

  it("counts what packs of the newest lots come to, for people of the studio", async () => {
    const packs = {
      "potash-feldspar": ["25000", "30"],
      whiting: ["10000", "9"],
      quartz: ["25000", "20"],
      kaolin: ["5000", "8"],
    };
    for (const [slug, [packGrams, packPrice]] of Object.entries(packs)) {
      const lot = {
        supplier: "quayside-ceramics",
        packGrams,
        packPrice,
        currency: "GBP",
        grams: packGrams,
      };
      expect((await studio.send("manager", `/materials/${slug}/lots`, { json: lot })).status).toBe(
        201,
      );
    }
    const { body } = await plan({ recipes: [lime], candidates: shelf, size: 4 });
    expect(body.materials).not.toContain("barium-carbonate");
    expect(body.cost?.known).toEqual([{ amount: "67.00", currency: "GBP" }]);
    const kaolin = Number(
      body.reached[0]?.lines.find(({ material }) => material === "kaolin")?.amount,
    );
    expect(body.cost?.testsOfEach).toBe(Math.floor(5000 / kaolin));
    expect(body.cost?.recipes).toMatchObject([{ recipe: lime, buckets: Math.floor(100 / kaolin) }]);
    const asked = { recipes: [lime, soft], candidates: shelf, size: 5 };
    const enough = await plan({ ...asked, budget: "67" });
    expect(enough.body.budget).toMatchObject({
      ...{ amount: "67.00", currency: "GBP", spent: "67.00", notPriced: ["Barium carbonate"] },
      says: expect.stringMatching(
        /^One pack of each comes to 67.00 GBP of 67.00 GBP\. Not bought, .* Barium carbonate\.$/,
      ),
    });
    expect(enough.body.reached.map(({ recipe }) => recipe)).toContain(lime);
    expect(enough.body.materials).toHaveLength(4);
    const less = await plan({ ...asked, budget: "66.99" });
    expect(less.body.reached.map(({ recipe }) => recipe)).not.toContain(lime);
    const tooLittle = await plan({ ...asked, budget: "7.99" });
    expect(tooLittle.body).toMatchObject({ materials: [], reached: [], proven: true, bound: 0 });
    expect(tooLittle.body.budget?.says).toMatch(
      /^No pack of these materials costs 7.99 GBP or less/,
    );
    const dollars = await plan({ ...asked, budget: "1000", currency: "usd" });
    expect(dollars.body.budget?.says).toMatch(/^Of no material here a price in USD is known/);
    const visitor = await plan(
      { recipes: [lime], candidates: shelf, size: 4, budget: 50 },
      "visitor",
    );
    expect(visitor.status).toBe(422);
    expect(visitor.body.errors[0]).toMatchObject({ path: "budget" });
    const page = new FormData();
    for (const slug of shelf) page.append("candidates", slug);
    for (const [name, value] of [
      ["recipes", lime],
      ["size", "5"],
      ["budget", "70"],
    ] as const)
      page.append(name, value);
    const html = await (await studio.send("author", "/shelf-plan", { form: page })).text();
    expect(html).toContain("One pack of each comes to 67.00 GBP of 70.00 GBP.");
    expect(html).toContain("No other shelf for 70.00 GBP reaches more");
    expect(html).toContain("Tests of 100 g");
    expect(html).toContain("Buckets of 5 kg");
    expect(html).toMatch(/name="budget"[^>]*value="70"/);
    const without = await plan({ recipes: [barium], candidates: shelf, size: 5 });
    expect(without.body.cost).toMatchObject({ without: ["Barium carbonate"], testsOfEach: null });
  });

  it("tells how far a shelf goes, and which one powder opens the most", async () => {
    const recipes = [lime, soft, barium];
    const { status, body } = await reach({
      have: ["potash-feldspar", "quartz", "kaolin"],
      recipes,
    });
    expect(status).toBe(200);
    expect(body.asTheyAre).toEqual([]);
    expect(body.opensMost).toBe("whiting");
    expect(body.opens[0]?.recipes.map(({ recipe }) => recipe)).toEqual([lime, soft]);
    expect(body.beyond.map(({ recipe }) => recipe)).toEqual([barium]);

    const more = await reach({ have: shelf.slice(0, 4), recipes });
    expect(more.body.asTheyAre.map(({ recipe }) => recipe)).toEqual([lime, soft]);
    expect(more.body.opens).toMatchObject([
      { material: "barium-carbonate", recipes: [{ recipe: barium }] },
    ]);
    expect(more.body.stillToBeHad).toMatchObject([
      { material: "red-iron-oxide", recipes: [lime, soft] },
    ]);
    expect((await reach({ have: [] })).body.errors[0]?.says).toMatch(/at least one material/);

    const feldspar = { name: "Burnt kaolin", formula: "Al2O3·2SiO2" };
    const restated = await reach({
      have: ["potash-feldspar", "quartz", "whiting", feldspar],
      recipes: [lime],
    });
    expect(restated.body.restated).toMatchObject([{ recipe: lime }]);
    expect(restated.body.restated[0]?.worst).toBeLessThan(1e-3);
  });

  it("plans on a page without a script, and shows again what was typed where it is wrong", async () => {
    const page = await (await studio.send("visitor", "/shelf-plan")).text();
    expect(page).toContain(`value="${lime}"`);
    expect(page).not.toContain(`value="${barium}"`);
    const form = new FormData();
    for (const slug of [lime, soft]) form.append("recipes", slug);
    for (const slug of shelf) form.append("candidates", slug);
    form.append("size", "4");
    const answer = await studio.send("author", "/shelf-plan", { form });
    expect(answer.status).toBe(200);
    const found = await answer.text();
    expect(found).toContain("4 materials reach 2 of 2 recipes");
    expect(found).toContain("Recipes reached by the best shelf of each size");
    expect(found).toContain("What the shelf costs to buy");

    form.set("size", "9");
    const refused = await studio.send("author", "/shelf-plan", { form });
    expect(refused.status).toBe(422);
    const shown = await refused.text();
    expect(shown).toContain('href="#field-size"');
    expect(shown).toContain('value="9"');
    expect(shown).toContain(`value="${soft}" checked`);

    const had = new FormData();
    for (const slug of shelf) had.append("have", slug);
    const far = await (await studio.send("author", "/shelf-reach", { form: had })).text();
    expect(far).toContain("Your shelf makes");
    const nothing = await studio.send("author", "/shelf-reach", { form: { within: "x" } });
    expect(nothing.status).toBe(422);
    expect(await nothing.text()).toContain('href="#field-reach-within"');
  });
});
