import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Analysis = { id: string; is: string; source: string; oxides: Record<string, unknown> };
type Material = {
  analysisInUse: Analysis | null;
  analyses: Analysis[];
  putInUse: { why: string; by: { name: string } } | null;
};

describe("analyses", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  let made = 0;
  const shelve = async (more: Record<string, unknown> = { formula: "CaCO3" }) => {
    made += 1;
    await studio.send("manager", "/materials", { json: { name: `Powder ${made}`, ...more } });
    return `/materials/powder-${made}`;
  };
  const read = (path: string) => studio.json<Material>("visitor", path);
  const sheet = {
    source: "Supplier's sheet of March",
    measuredOn: "2026-03-01",
    oxides: { CaO: { percent: 55.2, plusMinus: "0.40" }, MgO: { percent: "0.300" } },
    lossOnIgnition: { percent: 43.5 },
  };

  it.each<[Who, number, boolean | undefined, string]>([
    ["visitor", 401, undefined, "nothing"],
    ["author", 201, undefined, "waiting"],
    ["author", 201, true, "waiting"],
    ["other member", 201, undefined, "waiting"],
    ["reviewer", 201, undefined, "waiting"],
    ["manager", 201, undefined, "in use"],
    ["manager", 201, false, "waiting"],
  ])("answers the %s who adds one with %i, inUse %s: %s", async (who, status, inUse, is) => {
    const path = await shelve();
    const before = (await read(path)).analysisInUse?.id;
    const json = inUse === undefined ? sheet : { ...sheet, inUse };
    const answer = await studio.send(who, `${path}/analyses`, { json });
    expect(answer.status).toBe(status);
    const after = await read(path);
    if (is === "nothing") {
      expect(after.analyses.map(({ id }) => id)).toEqual([before]);
      return;
    }
    const added = await answer.json();
    expect(answer.headers.get("location")).toBe(`${path}/analyses/${added.id}`);
    expect(added).toMatchObject({
      is,
      measuredOn: "2026-03-01",
      oxides: { CaO: { percent: "55.2", plusMinus: "0.4" }, MgO: { percent: "0.3" } },
    });
    expect(after.analysisInUse?.id).toBe(is === "in use" ? added.id : before);
    expect(after.analyses.map((analysis) => analysis.is).sort()).toEqual(
      is === "in use" ? ["earlier", "in use"] : ["in use", "waiting"],
    );
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s who puts one in use with %i", async (who, status) => {
    const path = await shelve();
    const { id } = await (await studio.send("author", `${path}/analyses`, { json: sheet })).json();
    const json = { analysis: id, why: "A new delivery." };
    const answer = await studio.send(who, `${path}/analysis-in-use`, { method: "PUT", json });
    expect(answer.status).toBe(status);
    const after = await read(path);
    expect(after.analysisInUse?.id === id).toBe(status === 200);
    if (status === 200)
      expect(after.putInUse).toMatchObject({ why: "A new delivery.", by: { name: "Ines Okafor" } });
  });

  it("is put in use by the manager's form, which says what keeps another one", async () => {
    const path = await shelve();
    const slug = path.split("/")[2];
    const revision = {
      lines: [{ part: "base", material: slug, amount: "100" }],
      use: "decorative",
      cones: { low: "6", high: "6" },
      atmosphere: "oxidation",
      surface: "gloss",
    };
    const name = "Slack Water";
    const published = await studio.send("author", "/recipes", { json: { name, revision } });
    expect(published.status).toBe(201);
    const { id } = await (await studio.send("author", `${path}/analyses`, { json: sheet })).json();

    const page = await studio.send("manager", `${path}/analysis-in-use?analysis=${id}`);
    expect(page.status).toBe(200);
    expect(await page.text()).toContain("Slack Water");
    const bare = await studio.send("manager", `${path}/analysis-in-use`, {
      form: { analysis: id },
    });
    expect(bare.status).toBe(422);
    expect(await bare.text()).toContain('id="field-why-fault"');
    const form = { analysis: id, why: "The sheet of March is of this lot." };
    const put = await studio.send("manager", `${path}/analysis-in-use`, { form });
    expect([put.status, put.headers.get("location")]).toEqual([303, path]);
    expect((await read(path)).analysisInUse?.id).toBe(id);

    const recipe = await studio.json<{ head: { lines: { analysis: { id: string } }[] } }>(
      "visitor",
      "/recipes/slack-water",
    );
    expect(JSON.stringify(recipe.head.lines)).not.toContain(id);
    const still = await studio.json<{ pinnedElsewhere: unknown[] }>(
      "manager",
      `${path}/analysis-in-use?analysis=${id}`,
    );
    // The one that was in use before is what can be chosen now, and the recipe has exactly that.
    expect(still.pinnedElsewhere).toEqual([]);
  });

  it("is not put in use for another material, or where there is none", async () => {
    const [mine, other] = [await shelve(), await shelve()];
    const { id } = await (await studio.send("author", `${mine}/analyses`, { json: sheet })).json();
    for (const analysis of [id, "nonsense", "0198c0de-0000-7000-8000-000000000000"]) {
      const json = { analysis, why: "By mistake." };
      const put = await studio.send("manager", `${other}/analysis-in-use`, { method: "PUT", json });
      expect(put.status).toBe(422);
      expect((await put.json()).errors[0].path).toBe("analysis");
    }
    expect((await studio.send("manager", `${other}/analyses/${id}`)).status).toBe(404);
    expect((await read(other)).analyses).toHaveLength(1);
  });

  it("stays in use without another row where it is in use already", async () => {
    const path = await shelve();
    const { id } = (await read(path)).analysisInUse as Analysis;
    const before = await listEvents(studio.db, { limit: 1000 });
    const json = { analysis: id, why: "Again." };
    const put = await studio.send("manager", `${path}/analysis-in-use`, { method: "PUT", json });
    expect(put.status).toBe(200);
    expect(await listEvents(studio.db, { limit: 1000 })).toEqual(before);
  });

  it.each([
    [{ oxides: { Xx2O: { percent: 1 } } }, "oxides.Xx2O"],
    [{ oxides: { FeO: { percent: 1 } } }, "oxides.FeO"],
    [{ oxides: { SiO2: { percent: 100 } }, lossOnIgnition: { percent: 2.1 } }, "oxides"],
    [{ oxides: { SiO2: { percent: -0.1 } } }, "oxides.SiO2.percent"],
    [{ oxides: { SiO2: { percent: "1e2" } } }, "oxides.SiO2.percent"],
    [{ oxides: { SiO2: { percent: "NaN" } } }, "oxides.SiO2.percent"],
    [{ oxides: { SiO2: { percent: "50.1234567" } } }, "oxides.SiO2.percent"],
    [{ oxides: { SiO2: { percent: 50, plusMinus: -1 } } }, "oxides.SiO2.plusMinus"],
    [{ oxides: { SiO2: { plusMinus: 1 } } }, "oxides.SiO2.percent"],
    [{ oxides: { SiO2: { percent: 60 } }, basis: "calcined" }, "lossOnIgnition"],
    [
      { oxides: { SiO2: { percent: 60 } }, lossOnIgnition: { percent: -51 } },
      "lossOnIgnition.percent",
    ],
    [{ oxides: { SiO2: { percent: 60 } }, ideal: true }, "ideal"],
    [{ formula: "Si" }, "formula"],
    [{ formula: "K2O.Al2O3.6SiOO2x" }, "formula"],
    [{ formula: "CaCO3", oxides: { CaO: { percent: 56 } } }, "formula"],
    [{ formula: "CaCO3", lossOnIgnition: { percent: 44 } }, "lossOnIgnition"],
    [{}, "oxides"],
    [{ formula: "CaCO3", measuredOn: "0000-01-01" }, "measuredOn"],
    [{ formula: "CaCO3", source: "" }, "source"],
  ])("refuses %j at %s and writes nothing", async (body, path) => {
    const at = await shelve();
    const before = await listEvents(studio.db, { limit: 1000 });
    const json = { source: "A sheet", ...body };
    const refused = await studio.send("manager", `${at}/analyses`, { json });
    expect(refused.status).toBe(422);
    const { errors } = await refused.json();
    expect(errors.map((fault: { path: string }) => fault.path)).toEqual([path]);
    expect((await read(at)).analyses).toHaveLength(1);
    expect(await listEvents(studio.db, { limit: 1000 })).toEqual(before);
  });

  it("names the place of what cannot be read in a formula", async () => {
    const json = { source: "A book", formula: "CaO.XiO2" };
    const refused = await studio.send("manager", `${await shelve()}/analyses`, { json });
    expect((await refused.json()).errors[0].says).toMatch(/^At character 5: /);
  });

  it("is exact where an ideal formula says so, and takes up oxygen where it does", async () => {
    const path = await shelve({});
    const json = { source: "A book", formula: "Fe3O4", ideal: true };
    const added = await (await studio.send("manager", `${path}/analyses`, { json })).json();
    // Fe3O4 to Fe2O3 takes up oxygen: loss −3.46 % by the IUPAC weights.
    expect(Number(added.lossOnIgnition.percent)).toBeCloseTo(-3.46, 2);
    expect(added.asWeighed.oxides.Fe2O3).toMatchObject({ plusMinus: 0, assumed: false });
    const page = await (await studio.send("visitor", path)).text();
    expect(page).toContain("<td>exact</td>");
    expect(page).toContain("−3.46");
  });

  it("turns a calcined analysis back to the powder as weighed", async () => {
    const path = await shelve({});
    const oxides = { SiO2: { percent: 65 }, Al2O3: { percent: 30 } };
    const json = { source: "A sheet", basis: "calcined", oxides, lossOnIgnition: { percent: 10 } };
    const added = await (await studio.send("manager", `${path}/analyses`, { json })).json();
    // 65 × 0.9 = 58.5, 30 × 0.9 = 27, and 100 − 85.5 − 10 = 4.5 is unaccounted for.
    expect(added.asWeighed.oxides.SiO2.value).toBeCloseTo(58.5, 9);
    expect(added.asWeighed.unaccounted).toBeCloseTo(4.5, 9);
    const page = await (await studio.send("visitor", path)).text();
    for (const printed of ["65.00", "58.50", ">Rest<", "4.50"]) {
      expect(page).toContain(printed);
    }
  });

  it("comes from a form of fields by oxide, and shows what was typed where one is wrong", async () => {
    const path = await shelve({});
    const form = {
      source: "Typed from paper",
      "oxides.SiO2.percent": "48.5",
      "oxides.SiO2.plusMinus": "0.6",
      "oxides.Al2O3.percent": "-36",
      "oxides.K2O.percent": "",
      "lossOnIgnition.percent": "12.5",
    };
    const refused = await studio.send("author", `${path}/analyses`, { form });
    const page = await refused.text();
    expect(refused.status).toBe(422);
    expect(page).toContain('href="#field-oxides.Al2O3.percent"');
    for (const typed of ["Typed from paper", "48.5", "0.6", "-36", "12.5"]) {
      expect(page).toContain(`value="${typed}"`);
    }
    const right = { ...form, "oxides.Al2O3.percent": "36" };
    expect((await studio.send("author", `${path}/analyses`, { form: right })).status).toBe(303);
    expect((await read(path)).analyses[0]).toMatchObject({
      is: "waiting",
      oxides: { SiO2: { percent: "48.5", plusMinus: "0.6" }, Al2O3: { percent: "36" } },
    });
  });

  it("is listed with the others of its material, newest first", async () => {
    const path = await shelve();
    const { id } = await (await studio.send("author", `${path}/analyses`, { json: sheet })).json();
    const { items } = await studio.json<{ items: Analysis[] }>("visitor", `${path}/analyses`);
    expect(items.map((analysis) => analysis.is)).toEqual(["waiting", "in use"]);
    expect(items[0]?.id).toBe(id);
    const page = await studio.send("visitor", `${path}/analyses`);
    expect([page.status, page.headers.get("location")]).toEqual([302, path]);
  });

  it("has its own page, waiting or not", async () => {
    const path = await shelve();
    const added = await studio.send("author", `${path}/analyses`, { json: sheet });
    const page = await (await studio.send("visitor", String(added.headers.get("location")))).text();
    expect(page).toContain("This analysis waits");
    expect(page).toContain("Supplier&#39;s sheet of March");
  });

  it("is not offered to a visitor, and not found where there is no material", async () => {
    const path = await shelve();
    expect((await studio.send("visitor", `${path}/analyses/new`)).status).toBe(401);
    expect((await studio.send("author", `${path}/analyses/new`)).status).toBe(200);
    expect((await studio.send("author", `${path}/analysis-in-use`)).status).toBe(403);
    const nowhere = "/materials/nothing-here";
    expect((await studio.send("author", `${nowhere}/analyses`, { json: sheet })).status).toBe(404);
    expect((await studio.send("manager", `${nowhere}/analysis-in-use`)).status).toBe(404);
  });
});
