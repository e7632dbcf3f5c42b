import { Decimal } from "decimal.js";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio } from "../studio.ts";

type Weighed = {
  lines: { material: string; part: string; grams: string; runningGrams: string }[];
  baseGrams: string;
  totalGrams: string;
  scaleGrams: string;
  waterGrams?: string;
  says?: string;
  coarse?: { line: number; percent: number; smallestGrams: string }[];
};
type Problem = { errors: { path: string; says: string }[] };

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const weigh = (json: unknown) => studio.send("visitor", "/batch", { json });
const weighed = async (json: unknown): Promise<Weighed> => {
  const answer = await weigh(json);
  if (answer.status !== 200) throw new Error(await answer.text());
  return (await answer.json()) as Weighed;
};
const powder = (amount: string, part = "base", name = `Powder ${amount}`) => ({
  material: { name, formula: "SiO2" },
  part,
  amount,
});
const thirds = [powder("1"), powder("1"), powder("1"), powder("0.05", "addition")];

describe("POST /batch", () => {
  // By hand, from the rule: 100 in thirds on a scale of 1 g, and 1.67 g on top.
  it.each(everybody)("tells the %s what to weigh", async (who) => {
    const answer = await studio.send(who, "/batch", {
      json: { lines: thirds, grams: "100", scaleGrams: "1" },
    });
    expect(answer.status).toBe(200);
    expect(await answer.json()).toEqual({
      lines: [
        { material: "Powder 1", part: "base", grams: "34", runningGrams: "34" },
        { material: "Powder 1", part: "base", grams: "33", runningGrams: "67" },
        { material: "Powder 1", part: "base", grams: "33", runningGrams: "100" },
        { material: "Powder 0.05", part: "addition", grams: "2", runningGrams: "102" },
      ],
      baseGrams: "100",
      totalGrams: "102",
      scaleGrams: "1",
      coarse: [{ line: 3, percent: expect.closeTo(20, 9), smallestGrams: "1500" }],
    });
  });

  it("says nothing of a scale that is fine enough", async () => {
    const fine = await weighed({ lines: [powder("2"), powder("3")], grams: 500, scaleGrams: 0.1 });
    expect(fine).not.toHaveProperty("coarse");
    expect(fine.lines.map(({ grams }) => grams)).toEqual(["200", "300"]);
  });

  it("adds up whatever is asked: the base to its grams, the total to what is printed", async () => {
    const amount = fc.integer({ min: 1, max: 9999 }).map((each) => String(each / 100));
    const line = fc.tuple(amount, fc.constantFrom("base", "addition"));
    const asked = fc.record({
      lines: fc.array(line, { minLength: 1, maxLength: 8 }),
      steps: fc.integer({ min: 1, max: 5000 }),
      scaleGrams: fc.constantFrom("0.01", "0.1", "0.5", "1", "5"),
    });
    await fc.assert(
      fc.asyncProperty(asked, async ({ lines, steps, scaleGrams }) => {
        const grams = new Decimal(scaleGrams).times(steps).toFixed();
        const all = [powder("10"), ...lines.map(([each, part]) => powder(each, part))];
        const sheet = await weighed({ lines: all, grams, scaleGrams });
        const sum = (part?: string) =>
          sheet.lines
            .filter((each) => !part || each.part === part)
            .reduce((total, each) => total.plus(each.grams), new Decimal(0))
            .toFixed();
        expect([sum("base"), sum()]).toEqual([grams, sheet.totalGrams]);
        expect(sheet.lines.at(-1)?.runningGrams).toBe(sheet.totalGrams);
        for (const each of sheet.lines)
          expect(new Decimal(each.grams).mod(scaleGrams).isZero()).toBe(true);
        for (const { line, smallestGrams } of sheet.coarse ?? []) {
          const larger = await weighed({ lines: all, grams: smallestGrams, scaleGrams }).catch(
            () => undefined,
          );
          expect(larger?.coarse?.map((each) => each.line) ?? []).not.toContain(line);
        }
      }),
      { numRuns: 25 },
    );
  });

  it("weighs a recipe by its address, any revision of it", async () => {
    const slug = await publish(studio);
    const asked = { recipe: slug, grams: "1000", scaleGrams: "1" };
    const sheet = await weighed(asked);
    expect(sheet.lines).toContainEqual({
      material: "red-iron-oxide",
      part: "addition",
      grams: "20",
      runningGrams: "1020",
    });
    expect(await weighed({ ...asked, recipe: `${slug}@1` })).toEqual(sheet);
    expect(await weighed({ ...asked, revision: 1 })).toEqual(sheet);
  });

  it("does not know a private recipe, except to whoever may see it", async () => {
    const slug = await publish(studio, { shownTo: "private" });
    const json = { recipe: slug, grams: "100", scaleGrams: "1" };
    for (const [who, status] of [
      ["visitor", 404],
      ["other member", 404],
      ["reviewer", 404],
      ["author", 200],
      ["manager", 200],
    ] as const)
      expect((await studio.send(who, "/batch", { json })).status).toBe(status);
  });

  // By hand: 10 litres of 1.45 with 2.65 hold 4500 × 2.65/1.65 = 7227.27 g dry, of which 100/102
  // are base, 7085.56; the slurry weighs 14500 g.
  it("fills a bucket: dry by the gravity, water besides, and says what it assumed", async () => {
    const lines = [powder("100"), powder("2", "addition")];
    const fill = { litres: "10", specificGravity: "1.45" };
    const sheet = await weighed({ lines, fill, scaleGrams: "1" });
    expect(sheet).toMatchObject({
      baseGrams: "7086",
      totalGrams: "7228",
      waterGrams: "7272.7",
      says: expect.stringContaining("2.65 is assumed"),
    });
    // With 2.5 instead: 4500 × 2.5/1.5 = 7500 g dry.
    for (const known of [
      { drySpecificGravity: "2.5" },
      { fill: { ...fill, drySpecificGravity: 2.5 } },
    ]) {
      const other = await weighed({ lines: [powder("100")], fill, scaleGrams: "10", ...known });
      expect(other).toMatchObject({ baseGrams: "7500", waterGrams: "7000" });
      expect(other.says).not.toContain("assumed");
    }
  });

  const fine = { lines: [powder("1")], grams: "100", scaleGrams: "1" };
  const fill = { litres: "1", specificGravity: "1.5" };
  it.each<[string, Record<string, unknown>, string]>([
    ["no lines and no recipe", { lines: undefined }, "lines"],
    ["lines and a recipe", { recipe: "slack-water" }, "recipe"],
    ["a revision of nothing", { revision: 2 }, "revision"],
    ["no grams and no fill", { grams: undefined }, "grams"],
    ["grams and a fill", { fill }, "fill"],
    ["grams that are no multiple of the step", { grams: "100.5" }, "grams"],
    ["no grams at all", { grams: "0" }, "grams"],
    ["more than a million", { grams: "1000001" }, "grams"],
    ["no scale", { scaleGrams: undefined }, "scaleGrams"],
    ["a scale of 0", { scaleGrams: "0" }, "scaleGrams"],
    ["a word for a weight", { grams: "plenty" }, "grams"],
    ["an amount below 0", { lines: [powder("-1")] }, "lines.0.amount"],
    ["a base of 0", { lines: [powder("0"), powder("5", "addition")] }, "lines"],
    [
      "a powder that is not here",
      { lines: [powder("1"), { ...powder("1"), material: "moon-dust" }] },
      "lines.1.material",
    ],
    [
      "a fill with water",
      { grams: undefined, fill: { ...fill, specificGravity: "1" } },
      "fill.specificGravity",
    ],
    ["a fill of nothing", { grams: undefined, fill: { ...fill, litres: "0" } }, "fill.litres"],
    [
      "a fill without litres",
      { grams: undefined, fill: { specificGravity: "1.4" } },
      "fill.litres",
    ],
    [
      "a fill below one step",
      { grams: undefined, fill: { litres: "0.0001", specificGravity: "1.1" } },
      "fill.litres",
    ],
    ["a fill and a scale of 0", { grams: undefined, fill, scaleGrams: "0" }, "scaleGrams"],
  ])("refuses %s with its place", async (_, different, path) => {
    const answer = await weigh({ ...fine, ...different });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as Problem).errors.map((error) => error.path)).toEqual([path]);
  });

  it("refuses a revision that the recipe does not have", async () => {
    const slug = await publish(studio);
    const answer = await weigh({ recipe: slug, revision: 9, grams: "1", scaleGrams: "1" });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as Problem).errors[0]?.path).toBe("revision");
  });
});

describe("the page of it", () => {
  it("weighs pasted lines and what is typed stays", async () => {
    const page = await studio.send("visitor", "/batch");
    expect(await page.text()).toContain("What to weigh");
    const text = "Quartz 60\nWhiting 40\n+ Red iron oxide 2";
    const shown = await studio.send("visitor", "/batch", {
      form: { text, grams: "500", scaleGrams: "1" },
    });
    const html = await shown.text();
    expect(html).toContain("300 g");
    expect(html).toContain("510 g in all.");
  });

  it("shows a fault beside its field with all that was typed", async () => {
    const shown = await studio.send("visitor", "/batch", {
      form: { text: "no-such-glaze@2", grams: "500", scaleGrams: "1" },
    });
    expect(shown.status).toBe(404);
    const html = await shown.text();
    expect(html).toContain("There is no recipe “no-such-glaze”");
    expect(html).toContain('value="500"');
  });
});
