import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

describe("how the studio is set", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(() => studio.close());

  const set = {
    name: "Saltmarsh Lane Studio",
    showsPublic: true,
    scaleGrams: "0.5",
    approvalMonths: 24,
    colourTolerance: "2",
    currency: "GBP",
    mixTolerancePercent: "2.5",
    stockWeeks: 4,
  };
  const put = (who: Who, json: Record<string, unknown>) =>
    studio.send(who, "/studio", { method: "PUT", json });
  const now = () => studio.json("manager", "/studio");

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s who sets it with %i", async (who, status) => {
    const before = await now();
    const given = { ...set, name: `Saltmarsh of the ${who}` };
    expect((await put(who, given)).status).toBe(status);
    expect((await studio.send(who, "/studio")).status).toBe(status);
    expect(await now()).toEqual(status === 200 ? { ...given, jurisdictions: [] } : before);
  });

  it("takes a form, where a box that is not ticked means no", async () => {
    const form = { name: set.name, scaleGrams: "0.1", approvalMonths: "" };
    expect((await studio.send("manager", "/studio", { form })).status).toBe(303);
    expect(await now()).toMatchObject({
      showsPublic: false,
      approvalMonths: null,
      currency: null,
      mixTolerancePercent: "1",
      stockWeeks: 6,
    });
    expect((await studio.send("visitor", "/recipes")).status).toBe(401);
    await put("manager", set);
    expect((await studio.send("visitor", "/recipes")).status).toBe(200);
  });

  it.each([
    ["scaleGrams", "0"],
    ["scaleGrams", "ten"],
    ["approvalMonths", "0"],
    ["approvalMonths", "121"],
    ["colourTolerance", "51"],
    ["currency", "money"],
    ["mixTolerancePercent", "0"],
    ["mixTolerancePercent", "1.005"],
    ["stockWeeks", "105"],
    ["stockWeeks", "1.5"],
    ["name", ""],
    ["jurisdictions", "the-moon"],
  ])("refuses %s %s, and keeps what was typed", async (path, typed) => {
    const form = { name: set.name, scaleGrams: "0.1", approvalMonths: "24", [path]: typed };
    const answer = await studio.send("manager", "/studio", { form });
    expect(answer.status).toBe(422);
    expect(await answer.text()).toContain(`id="field-${path}"`);
    expect(await now()).toEqual({ ...set, jurisdictions: [] });
  });

  it("takes whose limits count, one box or several, and none where none is ticked", async () => {
    const form = { name: set.name, showsPublic: "on", scaleGrams: "0.1" };
    const chosen = async (ids: string[]) => {
      const sent = new FormData();
      for (const [name, value] of Object.entries(form)) sent.set(name, value);
      for (const id of ids) sent.append("jurisdictions", id);
      expect((await studio.send("manager", "/studio", { form: sent })).status).toBe(303);
      return (await now()).jurisdictions;
    };
    expect(await chosen(["eu"])).toEqual(["eu"]);
    expect(await chosen(["eu", "us-fda"])).toEqual(["eu", "us-fda"]);
    const page = await (await studio.send("manager", "/studio")).text();
    expect(page).toMatch(/value="us-fda"[^>]*checked/);
    expect(page).not.toMatch(/value="us-ca"[^>]*checked/);
    expect(await chosen([])).toEqual([]);
    await put("manager", set);
  });

  it("gives batches the studio's own scale, and counts their weighing once one is chosen", async () => {
    await put("manager", set);
    const slug = await publish(studio);
    const page = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    expect(page).toMatch(/name="scaleGrams"[^>]*value="0.5"/);
    type Read = { head: { chemistry: { unity: { SiO2: { value: number; plusMinus: number } } } } };
    const analyses = await studio.json<Read>("visitor", `/recipes/${slug}`);
    const weighed = await studio.json<Read>("visitor", `/recipes/${slug}?grams=20&scaleGrams=0.5`);
    const [before, after] = [analyses.head.chemistry.unity.SiO2, weighed.head.chemistry.unity.SiO2];
    expect(after.value).toBe(before.value);
    expect(after.plusMinus).toBeGreaterThan(before.plusMinus);
    const text = await (
      await studio.send("visitor", `/recipes/${slug}?grams=20&scaleGrams=0.5`)
    ).text();
    expect(text).toContain("Weighing 20 g of base in steps of 0.5 g counts in every ± here.");
    expect(text).toMatch(/numbers\/unity\.SiO2\?grams=20&amp;scaleGrams=0\.5/);
    const told = await studio.json<{ quantity: { plusMinus: number } }>(
      "visitor",
      `/recipes/${slug}/revisions/1/numbers/unity.SiO2?grams=20&scaleGrams=0.5`,
    );
    expect(told.quantity.plusMinus).toBeCloseTo(after.plusMinus, 12);
  });

  it("says on a recipe that an analysis has grown old, though it was kept when it was new", async () => {
    const made = await studio.send("manager", "/materials", {
      json: {
        name: "Old feldspar",
        kind: "mineral",
        analysis: {
          source: "demo analysis",
          measuredOn: "2015-03-01",
          oxides: { SiO2: { percent: "66" }, Al2O3: { percent: "18" }, K2O: { percent: "14" } },
          lossOnIgnition: { percent: "0.5" },
        },
      },
    });
    expect(made.status).toBe(201);
    const slug = await publish(studio, {
      lines: [
        ["old-feldspar", "60"],
        ["whiting", "20"],
        ["kaolin", "20"],
      ],
    });
    const { head } = await studio.json<{
      head: { chemistry: { findings: { rule: string; says: string }[] } };
    }>("visitor", `/recipes/${slug}`);
    const old = head.chemistry.findings.filter(({ rule }) => rule === "old-analysis");
    expect(old.map(({ says }) => says).join()).toContain("Old feldspar is of 2015-03-01");
    expect(await (await studio.send("visitor", `/recipes/${slug}`)).text()).toContain(
      "over 5 years old",
    );
  });
});
