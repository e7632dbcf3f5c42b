import { Decimal } from "decimal.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Sheet = {
  revision: number;
  lines: { material: string; part: string; grams: string; runningGrams: string; lb?: string }[];
  baseGrams: string;
  totalGrams: string;
  waterGrams?: string;
  errors?: { path: string; says: string }[];
};

describe("a recipe's sheet to weigh from", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const ask = async (query: string) => {
    const answer = await studio.send("visitor", `/recipes/${slug}/batch?${query}`, {
      accept: "application/json",
    });
    return { status: answer.status, sheet: (await answer.json()) as Sheet };
  };

  it("weighs a kilogram where nothing is said, the base before what comes on top", async () => {
    const { status, sheet } = await ask("");
    expect(status).toBe(200);
    expect(sheet).toMatchObject({ revision: 1, baseGrams: "1000" });
    expect(sheet.lines.map(({ part }) => part).join(" ")).toMatch(/^base( base)*( addition)+$/);
    const base = sheet.lines
      .filter(({ part }) => part === "base")
      .map(({ grams }) => Number(grams));
    expect(base).toEqual([...base].sort((a, b) => b - a));
    let running = new Decimal(0);
    for (const { grams, runningGrams } of sheet.lines) {
      running = running.plus(grams);
      expect(runningGrams).toBe(running.toFixed());
    }
    expect(running.toFixed()).toBe(sheet.totalGrams);
  });

  it("says the same weights as POST /batch does for the recipe", async () => {
    const { sheet } = await ask("amount=2.5&unit=kg&scaleGrams=1");
    const asked = await studio.send("visitor", "/batch", {
      json: { recipe: slug, grams: "2500", scaleGrams: "1" },
    });
    const other = (await asked.json()) as Sheet;
    const byName = ({ lines }: Sheet) =>
      lines.map(({ material, part, grams }) => `${part} ${material} ${grams}`).sort();
    expect(byName(sheet)).toEqual(byName(other));
    expect(sheet.totalGrams).toBe(other.totalGrams);
  });

  it("takes pounds, to the step of the scale", async () => {
    const { sheet } = await ask("amount=10&unit=lb&scaleGrams=0.1");
    expect(sheet.baseGrams).toBe("4535.9");
    for (const { lb, grams } of sheet.lines)
      expect(Number(lb)).toBeCloseTo(Number(grams) / 453.59237, 3);
  });

  it("fills a bucket, and says how much water to begin with", async () => {
    const { sheet } = await ask("litres=10&gravity=1.45&scaleGrams=1");
    // 10 litres of 1.45 with 2.65 assumed: 7227 g dry, 7273 g of water.
    expect(Number(sheet.totalGrams)).toBeCloseTo(7227, -1);
    expect(Number(sheet.waterGrams)).toBeCloseTo(7272.7, 1);
  });

  it("uses up what there is of one powder", async () => {
    const { sheet } = await ask("powder=whiting&have=830&scaleGrams=0.1");
    const whiting = sheet.lines.find(({ material }) => material === "whiting");
    expect(Number(whiting?.grams)).toBeLessThanOrEqual(830);
    expect(Number(whiting?.grams)).toBeGreaterThan(829);
  });

  it.each([
    ["amount=5&litres=10&gravity=1.4", "amount", /one of the three/],
    ["litres=10", "gravity", /1\.45/],
    ["gravity=1.4", "litres", /litres/],
    ["powder=unicorn-dust&have=5", "powder", /powders of this recipe/],
    ["powder=whiting", "have", /How many grams/],
    ["powder=whiting&have=0.01&scaleGrams=10", "have", /So little/],
    ["amount=lots", "amount", /not a number/],
    ["amount=5&unit=stone", "unit", /g, kg, lb/],
    ["amount=5000&unit=kg", "amount", /at most 1000000/],
    ["scaleGrams=0", "scaleGrams", /more than 0/],
    ["litres=10&gravity=0.9", "gravity", /between water/],
  ])("refuses %s at %s, and keeps what was typed", async (query, path, says) => {
    const { status, sheet } = await ask(query);
    expect(status).toBe(422);
    expect(sheet.errors).toContainEqual({ path, says: expect.stringMatching(says) });
    const page = await studio.send("visitor", `/recipes/${slug}/batch?${query}`);
    expect(page.status).toBe(422);
    const html = await page.text();
    for (const [name, typed] of new URLSearchParams(query))
      if (name !== "unit" && name !== "powder") expect(html).toContain(`value="${typed}"`);
  });

  it("has its cautions before the weights, for whoever reads it", async () => {
    const html = await (await studio.send("visitor", `/recipes/${slug}/batch`)).text();
    expect(html).toContain("Before you open a bag");
    const [before, ...weights] = html.split("Weigh, in this order");
    expect(weights).not.toEqual([]);
    expect(before).toContain("<strong>Dust.</strong>");
    expect(before).toContain("respirator");
    expect(html).toContain("never poured down the drain");
  });

  it("is not there for what one may not know of, or a revision that is not there", async () => {
    expect((await ask("revision=7")).status).toBe(404);
    const hidden = await publish(studio, { shownTo: "private" });
    const answer = await studio.send("visitor", `/recipes/${hidden}/batch`);
    expect(answer.status).toBe(404);
  });
});
