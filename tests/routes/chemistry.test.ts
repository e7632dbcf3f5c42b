import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Chemistry } from "../../src/chem/chemistry.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Printed = {
  id: string;
  materials: Record<string, { formula: string; amount: string | number }>;
  published_unity: Record<string, number>;
  suggested_tolerance_vs_published: number;
};

// H. Seger, Tonindustrie-Zeitung 1886 p. 135, table of Normalkegel, as abstracted in Dingler's
// Polytechnisches Journal 261 (1886), pp. 37-42; tolerances as the record gives them.
const seger = (
  JSON.parse(
    readFileSync(new URL("../reference/seger-batches.json", import.meta.url), "utf8"),
  ) as Printed[]
).filter((record) => record.materials && record.published_unity);

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const post = (json: unknown) => studio.send("visitor", "/chemistry", { json });

const quartz = { material: { name: "Quartz", formula: "SiO2" }, part: "base", amount: "25" };
const feldspar = { material: "potash-feldspar", part: "base", amount: "40" };
const whiting = { material: { name: "Whiting", formula: "CaCO3" }, part: "base", amount: "20" };

describe("POST /chemistry", () => {
  it("has all fifteen printed cones to answer", () => {
    expect(seger.filter(({ id }) => id.startsWith("seger-cone-")).length).toBe(15);
  });

  it.each(seger.map((record) => [record.id, record] as const))(
    "answers the printed formula of %s",
    async (_, { materials, published_unity, suggested_tolerance_vs_published: tolerance }) => {
      const lines = Object.entries(materials).map(([name, { formula, amount }]) => ({
        material: { name, formula },
        part: "base",
        amount: String(amount),
      }));
      const answer = await post({ lines });
      expect(answer.status).toBe(200);
      const { unity } = (await answer.json()) as Chemistry;
      for (const [oxide, printed] of Object.entries(published_unity)) {
        const value = Object.entries(unity ?? {}).find(([name]) => name === oxide)?.[1]?.value ?? 0;
        expect(Math.abs(value - printed)).toBeLessThanOrEqual(tolerance);
      }
    },
  );

  it("answers the whole contract for materials of the shelf, a formula and an analysis", async () => {
    const clay = {
      name: "Ball clay",
      analysis: {
        SiO2: { percent: 55.1, plusMinus: 0.8 },
        Al2O3: { percent: 29.3 },
        K2O: { percent: "2.1" },
        Fe2O3: { percent: 1.1 },
        TiO2: { percent: 1.3 },
      },
      lossOnIgnition: { percent: 10.2 },
    };
    const answer = await post({
      lines: [feldspar, whiting, { material: clay, part: "base", amount: "15" }],
      unity: "fluxes",
      cone: "6",
      use: "functional",
      explain: true,
    });
    expect(answer.status).toBe(200);
    const chemistry = (await answer.json()) as Chemistry;
    expect(chemistry.batch).toEqual({ base: "75", additions: "0", total: "75" });
    const total = (percents: Chemistry["weightPercent"]) =>
      Object.values(percents).reduce((sum, quantity) => sum + quantity.value, 0);
    expect(total(chemistry.weightPercent)).toBeCloseTo(100, 9);
    expect(total(chemistry.molePercent)).toBeCloseTo(100, 9);
    const shares = chemistry.explain?.SiO2?.reduce((sum, { share }) => sum + share, 0);
    expect(shares).toBeCloseTo(1, 12);
    // The loss of CaCO3 is 43.97 % (IUPAC abridged weights 2021: 44.009 / 100.086), of 20 in 75;
    // the clay brings 10.2 % of 15 in 75.
    expect(chemistry.lossOnIgnition.value).toBeCloseTo((20 * 43.971 + 15 * 10.2) / 75, 2);
    expect(chemistry.assumed.length).toBeGreaterThan(0);
  });

  it("notes an analysis that is over five years old", async () => {
    const found = async (measuredOn: string) => {
      const name = `Kaolin of ${measuredOn}`;
      const analysis = {
        source: "demo analysis",
        measuredOn,
        oxides: { SiO2: { percent: 48 }, Al2O3: { percent: 37 } },
      };
      await studio.send("manager", "/materials", { json: { name, kind: "clay" } });
      const slug = name.toLowerCase().replaceAll(" ", "-");
      await studio.send("manager", `/materials/${slug}/analyses`, { json: analysis });
      const answer = await post({
        lines: [feldspar, { material: slug, part: "base", amount: "9" }],
      });
      return ((await answer.json()) as Chemistry).findings.filter(({ says }) =>
        says.includes(name),
      );
    };
    expect((await found("2001-05-01")).some(({ level }) => level === "note")).toBe(true);
    const lastYear = new Date().getUTCFullYear() - 1;
    expect(await found(`${lastYear}-06-01`)).toEqual([]);
  });

  it("says why there is no unity formula without a flux", async () => {
    const answer = await post({ lines: [quartz] });
    const { unity, findings } = (await answer.json()) as Chemistry;
    expect(unity).toBeNull();
    expect(findings.map(({ says }) => says).join(" ")).toMatch(/flux/i);
  });

  it.each<[string, unknown, string]>([
    [
      "an unknown oxide",
      { lines: [{ ...quartz, material: { name: "X", analysis: { SiO3: { percent: 9 } } } }] },
      "lines.0.material.analysis.SiO3",
    ],
    [
      "an unknown material",
      { lines: [feldspar, { ...quartz, material: "unobtainium" }] },
      "lines.1.material",
    ],
    ["a negative amount", { lines: [{ ...quartz, amount: "-1" }] }, "lines.0.amount"],
    ["a huge amount", { lines: [{ ...quartz, amount: "1000001" }] }, "lines.0.amount"],
    ["an amount that is no number", { lines: [{ ...quartz, amount: "NaN" }] }, "lines.0.amount"],
    ["an infinite amount", { lines: [{ ...quartz, amount: "Infinity" }] }, "lines.0.amount"],
    ["an exponent", { lines: [{ ...quartz, amount: "1e999" }] }, "lines.0.amount"],
    ["a base of 0", { lines: [{ ...quartz, amount: "0" }] }, "lines"],
    ["additions alone", { lines: [{ ...quartz, part: "addition" }] }, "lines"],
    [
      "an analysis over 102 %",
      {
        lines: [
          {
            ...quartz,
            material: {
              name: "X",
              analysis: { SiO2: { percent: 100 } },
              lossOnIgnition: { percent: 3 },
            },
          },
        ],
      },
      "lines.0.material.analysis",
    ],
    [
      "a negative percentage",
      { lines: [{ ...quartz, material: { name: "X", analysis: { SiO2: { percent: -1 } } } }] },
      "lines.0.material.analysis.SiO2.percent",
    ],
    ["65 lines", { lines: Array.from({ length: 65 }, () => quartz) }, "lines"],
    ["no lines", { lines: [] }, "lines"],
    ["no lines at all", {}, "lines"],
    [
      "a formula that does not parse",
      { lines: [{ ...quartz, material: { name: "X", formula: "Si(O2" } }] },
      "lines.0.material.formula",
    ],
    ["a cone that is none", { lines: [quartz], cone: "6.5" }, "cone"],
    ["a field that is none", { lines: [{ ...quartz, ammount: "3" }] }, "lines.0.ammount"],
  ])("refuses %s with its path", async (_, request, path) => {
    const answer = await post(request);
    expect(answer.status).toBe(422);
    expect(answer.headers.get("content-type")).toContain("application/problem+json");
    const { errors } = (await answer.json()) as { errors: { path: string; says: string }[] };
    expect(errors.map((error) => error.path)).toContain(path);
  });

  it("names every fault at once", async () => {
    const answer = await post({
      lines: [
        { ...quartz, amount: "x" },
        { ...quartz, material: "nothing" },
        { ...quartz, part: "top" },
      ],
    });
    const { errors } = (await answer.json()) as { errors: { path: string }[] };
    expect(errors.map(({ path }) => path)).toEqual(
      expect.arrayContaining(["lines.0.amount", "lines.2.part"]),
    );
  });

  const raw = (body: string, contentType: string) =>
    studio.app.request("http://localhost/chemistry", {
      method: "POST",
      headers: {
        "content-type": contentType,
        accept: "application/json",
        origin: "http://localhost",
      },
      body,
    });

  it("refuses a body that is not JSON", async () => {
    const answer = await raw("{lines:", "application/json");
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as { detail: string }).detail).toContain("not JSON");
  });

  it("refuses what is neither a form nor JSON", async () => {
    expect((await raw("lines", "text/plain")).status).toBe(415);
  });

  it("refuses a body over 64 KiB", async () => {
    expect(
      (await raw(JSON.stringify({ pad: "x".repeat(65 * 1024) }), "application/json")).status,
    ).toBe(413);
  });

  it("stores nothing", async () => {
    const before = await studio.json("manager", "/events");
    await post({ lines: [feldspar, quartz] });
    expect(await studio.json("manager", "/events")).toEqual(before);
  });
});

describe("conventions", () => {
  it("count boron and iron as they were asked to, and say so", async () => {
    const frit = {
      material: { name: "Loft frit B", formula: "Na2O.CaO.0.5B2O3.0.5Al2O3.3SiO2" },
      part: "base",
      amount: "90",
    };
    const iron = {
      material: { name: "Red iron oxide", formula: "Fe2O3" },
      part: "addition",
      amount: "5",
    };
    const ask = async (boron: string) =>
      (await (await post({ lines: [frit, iron], boron, iron: "FeO" })).json()) as Chemistry;
    expect((await ask("apart")).conventions).toEqual({
      unity: "fluxes",
      iron: "FeO",
      boron: "apart",
    });
    // By the formula: SiO2 / (Al2O3 + B2O3) = 3 / 1, (SiO2 + B2O3) / Al2O3 = 3.5 / 0.5.
    expect((await ask("with-alumina")).ratios.silicaToR2O3?.value).toBeCloseTo(3, 9);
    expect((await ask("with-silica")).ratios.glassFormersToAlumina?.value).toBeCloseTo(7, 9);
    expect((await ask("apart")).unity).toHaveProperty("FeO");
  });
});

describe("the page", () => {
  const form = {
    "lines.0.part": "base",
    "lines.0.material": "Potash feldspar",
    "lines.0.amount": "60",
    "lines.1.part": "base",
    "lines.1.material": "Our chalk",
    "lines.1.formula": "CaCO3",
    "lines.1.amount": "40",
  };

  it("works out typed lines for a visitor, formulas included", async () => {
    const page = await (await studio.send("visitor", "/chemistry", { form })).text();
    expect(page).toContain("Our chalk");
    expect(page).toContain("worked out from CaCO3");
    expect(page).toContain('value="60"');
  });

  it("answers a form on another page with what the lines come to, and nothing else", async () => {
    const answer = await studio.send("visitor", "/chemistry", {
      form,
      headers: { "HX-Request-Type": "partial" },
    });
    const part = await answer.text();
    expect(part).not.toContain("<html");
    expect(part).toMatch(/^<section id="preview"/);
  });

  it("asks about a word that it is not sure of", async () => {
    const page = await (
      await studio.send("visitor", "/chemistry", {
        form: { ...form, "lines.0.material": "Potash feldspr" },
      })
    ).text();
    expect(page).toContain("choose-0-potash-feldspar");
  });
});
