import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Material = {
  slug: string;
  analysisInUse: { oxides: Record<string, { percent: string }>; source: string } | null;
  hazards: string[];
  usedIn: { slug: string }[];
};

describe("materials", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  let made = 0;
  const fresh = () => {
    made += 1;
    return `Powder ${made}`;
  };
  const add = async (json: Record<string, unknown>, who: Who = "author") => {
    const answer = await studio.send(who, "/materials", { json });
    return {
      status: answer.status,
      location: answer.headers.get("location"),
      json: await answer.json(),
    };
  };

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who adds one with %i", async (who, status) => {
    const name = fresh();
    const added = await add({ name, formula: "CaCO3" }, who);
    expect(added.status).toBe(status);
    const there = await studio.send(
      "visitor",
      `/materials/${name.toLowerCase().replace(" ", "-")}`,
    );
    expect(there.status).toBe(status === 201 ? 200 : 404);
  });

  it("is read by everybody, on its page and as JSON", async () => {
    const { location } = await add({ name: fresh(), formula: "SiO2" });
    for (const who of everybody) {
      const page = await studio.send(who, String(location));
      expect(page.status).toBe(200);
      expect(page.headers.get("content-type")).toContain("text/html");
      expect((await studio.json<Material>(who, String(location))).slug).toBe(
        location?.split("/")[2],
      );
    }
  });

  it("puts the formula that comes with it in use at once", async () => {
    const { json, location } = await add({ name: fresh(), kind: "flux", formula: "CaCO3" });
    // CaCO3 is CaO 56.03 with a loss of 43.97 by the IUPAC weights of 2021.
    expect(json.analysisInUse.oxides).toEqual({ CaO: { percent: "56.028815" } });
    expect(json.analysisInUse.lossOnIgnition).toEqual({ percent: "43.971185" });
    const page = await (await studio.send("visitor", String(location))).text();
    expect(page).toContain("56.03");
    expect(page).toContain("assumed");
  });

  it.each([
    [
      "under oxides",
      {
        oxides: { SiO2: { percent: "65.2", plusMinus: 0.4 }, K2O: { percent: 11 } },
        lossOnIgnition: { percent: 0.5 },
      },
    ],
    [
      "directly",
      {
        SiO2: { percent: "65.2", plusMinus: 0.4 },
        K2O: { percent: 11 },
        lossOnIgnition: { percent: 0.5 },
      },
    ],
  ])("takes an analysis with the oxides %s", async (_, analysis) => {
    const { status, json } = await add({ name: fresh(), analysis });
    expect(status).toBe(201);
    expect(json.analysisInUse).toMatchObject({
      oxides: { SiO2: { percent: "65.2", plusMinus: "0.4" }, K2O: { percent: "11" } },
      lossOnIgnition: { percent: "0.5" },
      asWeighed: { oxides: { SiO2: { plusMinus: 0.4, assumed: false }, K2O: { assumed: true } } },
    });
  });

  it("takes a loss that stands beside the oxides, as the chemistry does", async () => {
    const analysis = { SiO2: { percent: 50 }, Al2O3: { percent: 30 } };
    const { json } = await add({ name: fresh(), analysis, lossOnIgnition: { percent: 12 } });
    expect(json.analysisInUse.lossOnIgnition).toEqual({ percent: "12" });
    expect(json.analysisInUse.asWeighed.unaccounted).toBeCloseTo(8, 9);
  });

  it("may have no analysis, and its page says what that means", async () => {
    const { json, location } = await add({ name: fresh(), kind: "stain" });
    expect(json.analysisInUse).toBeNull();
    const page = await (await studio.send("visitor", String(location))).text();
    expect(page).toContain("cannot judge");
    expect(page).toContain("leach report");
  });

  it("has a name of its own, without regard to case", async () => {
    await add({ name: "Loft Frit B" });
    const { status, json } = await add({ name: "loft  frit-b" });
    expect(status).toBe(422);
    expect(json.errors).toEqual([
      { path: "name", says: expect.stringContaining("/materials/loft-frit-b") },
    ]);
  });

  it("gets another address where one is taken or is a page's", async () => {
    await add({ name: "Frit+7" });
    expect((await add({ name: "Frit 7" })).location).toBe("/materials/frit-7-2");
    expect((await add({ name: "New" })).location).toBe("/materials/new-2");
  });

  it("is made once where two members add the same name at the same moment", async () => {
    const name = fresh();
    const both = await Promise.all([add({ name }), add({ name }, "other member")]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 422]);
  });

  it.each([
    [{ name: "Bad 1", analysis: { oxides: { Xx2O: { percent: 1 } } } }, "analysis.oxides.Xx2O"],
    [{ name: "Bad 2", analysis: { Xx2O: { percent: 1 } } }, "analysis.Xx2O"],
    [{ name: "Bad 3", analysis: { SiO2: { percent: -1 } } }, "analysis.SiO2.percent"],
    [{ name: "Bad 4", analysis: { SiO2: { percent: 103 } } }, "analysis"],
    [{ name: "Bad 5", formula: "CaCX3" }, "formula"],
    [{ name: "Bad 6", formula: "CaCO3", analysis: { CaO: { percent: 56 } } }, "formula"],
    [{ name: "Bad 7", hazards: ["dust", "dragons"] }, "hazards.1"],
    [{ name: "Bad 8", colour: "blue" }, "colour"],
    [{ name: " " }, "name"],
  ])("refuses %j at %s and writes nothing", async (json, path) => {
    const before = await listEvents(studio.db, { limit: 1000 });
    const refused = await add(json);
    expect(refused.status).toBe(422);
    expect(refused.json.errors.map((fault: { path: string }) => fault.path)).toEqual([path]);
    expect(await listEvents(studio.db, { limit: 1000 })).toEqual(before);
    const { items } = await studio.json<{ items: Material[] }>("visitor", "/materials?q=bad");
    expect(items).toEqual([]);
  });

  it("takes a form, and shows everything typed again where something is wrong", async () => {
    const name = fresh();
    const form = {
      name,
      region: "",
      kind: "clay",
      about: "Grey and <sticky>.",
      hazards: "dust",
      formula: "",
      "analysis.basis": "calcined",
      "analysis.oxides.SiO2.percent": "60.5",
      "analysis.oxides.SiO2.plusMinus": "",
      "analysis.oxides.SnO2.percent": "abc",
      "analysis.lossOnIgnition.percent": "11.5",
    };
    const refused = await studio.send("author", "/materials", { form });
    const page = await refused.text();
    expect(refused.status).toBe(422);
    expect(page).toContain('href="#field-analysis.oxides.SnO2.percent"');
    for (const typed of [name, "clay", "Grey and &lt;sticky&gt;.", "60.5", "abc", "11.5"]) {
      expect(page).toContain(typed);
    }
    expect(/value="dust" checked/.test(page)).toBe(true);
    expect(/<details open/.test(page)).toBe(true);

    const taken = await studio.send("author", "/materials", {
      form: { ...form, "analysis.oxides.SnO2.percent": "1.5" },
    });
    expect(taken.status).toBe(303);
    const kept = await studio.json<Material>("visitor", String(taken.headers.get("location")));
    expect(kept.hazards).toEqual(["dust"]);
    expect(kept.analysisInUse).toMatchObject({
      basis: "calcined",
      oxides: { SiO2: { percent: "60.5" }, SnO2: { percent: "1.5" } },
    });
  });

  it("adds once for a form that is sent twice", async () => {
    const form = { name: fresh(), idempotencyKey: "twice" };
    const [first, second] = [
      await studio.send("author", "/materials", { form }),
      await studio.send("author", "/materials", { form }),
    ];
    expect([first.status, second.status]).toEqual([303, 303]);
    expect(second.headers.get("location")).toBe(first.headers.get("location"));
  });

  it.each([
    "/materials/nothing-here",
    "/materials/%00",
    "/materials/No%20Slug",
    `/materials/${"a".repeat(300)}`,
  ])("is not found at %s", async (path) => {
    expect((await studio.send("manager", path)).status).toBe(404);
  });

  it("is listed by name and found by any of its names", async () => {
    await add({ name: "Quartz", kind: "silica", hazards: ["dust"], formula: "SiO2" });
    await studio.send("author", "/materials/quartz/names", {
      json: { name: "Flint", region: "the United Kingdom" },
    });
    const { items } = await studio.json<{ items: unknown[] }>("visitor", "/materials?q=fLINT");
    expect(items).toEqual([
      {
        slug: "quartz",
        name: "Quartz",
        region: "",
        kind: "silica",
        names: [{ name: "Flint", region: "the United Kingdom" }],
        brings: [{ oxide: "SiO2", percent: 100 }],
        hazards: ["dust"],
        stillSold: true,
      },
    ]);
    const page = await (await studio.send("visitor", "/materials?q=flint")).text();
    expect(page).toContain("Flint (the United Kingdom)");
  });

  it("goes on after a name, and says so where that was the last", async () => {
    for (const name of ["Ash 1", "Ash 2", "Ash 3"]) await add({ name });
    const rest = await studio.json<{ items: { name: string }[]; next: string | null }>(
      "visitor",
      "/materials?q=ash&after=ash+1",
    );
    expect(rest.items.map(({ name }) => name)).toEqual(["Ash 2", "Ash 3"]);
    expect(rest.next).toBeNull();
  });
});
