import { Decimal } from "decimal.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

const firing = {
  ...{ kiln: "gannet", kind: "oxidation", cone: "6", startedAt: "2026-03-01T09:30:00+01:00" },
  programme: [
    { celsiusPerHour: 150, toCelsius: 620, holdMinutes: 30 },
    { celsiusPerHour: 60, toCelsius: 1220 },
  ],
};

/** 60 °C an hour to 1222 °C: self-supporting cone 6 ends there by the chart of 2016. */
const climb = [0, 60, 120, 180, 240].map((minute) => [minute, 982 + minute]);

describe("a page as somebody reads it", () => {
  let studio: TestStudio;
  let slug: string;
  let paths: Record<string, string>;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    const settings = (await studio.json("manager", "/studio")) as object;
    await studio.send("manager", "/studio", {
      method: "PUT",
      json: { ...settings, currency: "GBP" },
    });
    const json = { name: "Flint", region: "Far Isles", caution: "Not the stones of the chalk." };
    await studio.send("manager", "/materials/quartz/names", { json });
    await studio.send("manager", "/materials/whiting/names", {
      json: { name: "Flint", region: "Near Isles", caution: "" },
    });
    slug = await publish(studio);
    const other = await publish(studio, {
      lines: [
        ["potash-feldspar", "50"],
        ["whiting", "20"],
        ["quartz", "30"],
        ["red-iron-oxide", "8", "addition"],
      ],
    });
    await studio.send("manager", "/kilns", { json: { name: "Gannet" } });
    const fired = await studio.send("author", "/firings", { json: firing });
    const { id } = (await fired.json()) as { id: string };
    await studio.send("author", `/firings/${id}/readings`, { json: climb });
    const recipes = [slug, other];
    const family = await studio.send("author", "/families", {
      json: { name: "Two whites", recipes },
    });
    const { slug: written } = (await family.json()) as { slug: string };
    paths = {
      cost: `/recipes/${slug}/cost`,
      family: `/families/${written}`,
      replacement: "/materials/kaolin/replacement",
      recipe: `/recipes/${slug}`,
      batch: `/recipes/${slug}/batch`,
      number: `/recipes/${slug}/revisions/1/numbers/unity.SiO2`,
      compare: `/compare?left=${slug}&right=${other}`,
      moves: `/recipes/${slug}/moves`,
      shelf: "/materials",
      firing: `/firings/${id}`,
      cones: "/guide/cones",
      estimate: "/cone-estimate",
      chemistry: "/chemistry",
    };
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const usual = {
    ...{ region: null, weight: "g", temperature: "C", heat: "cone", theme: "system" },
    ...{ unity: "fluxes", iron: "Fe2O3", boron: "apart" },
  };
  const html = async (who: Who, path = "", headers: Record<string, string> = {}) => {
    const answer = await studio.send(who, path, { headers });
    expect(answer.status, path).toBe(200);
    // Keys of forms, and the last event that a page knows of, are new each time.
    return (await answer.text())
      .replace(/<input type="hidden"[^>]*>/g, "")
      .replace(/since=[\w-]+/g, "");
  };
  const words = (page: string) =>
    page
      .replace(/<[^>]*>/g, " ")
      .replace(/&#39;/g, "'")
      .replace(/\s+/g, " ")
      .replace(/ ,/g, ",");
  const reads = (json: object) =>
    studio.send("author", "/account/settings", { method: "PUT", json: { ...usual, ...json } });
  /** A page for the author, who reads so. */
  const readSo = async (json: object, path = "") => {
    await reads(json);
    return words(await html("author", path));
  };

  it.each<[string, object, string[]]>([
    [
      "region",
      { region: "Far Isles" },
      ["recipe", "batch", "shelf", "compare", "cost", "family", "replacement"],
    ],
    ["weight", { weight: "lb" }, ["recipe", "batch"]],
    ["temperature", { temperature: "F" }, ["recipe", "firing", "cones", "estimate"]],
    ["heat", { heat: "temperature" }, ["recipe", "firing"]],
    ["theme", { theme: "dark" }, ["recipe", "shelf", "cones"]],
    [
      "unity",
      { unity: "fluxes-and-colour" },
      ["recipe", "number", "compare", "moves", "chemistry"],
    ],
    ["iron", { iron: "FeO" }, ["recipe", "number", "compare", "moves", "chemistry"]],
    ["boron", { boron: "with-silica" }, ["recipe", "number", "compare", "moves", "chemistry"]],
  ])("changes by %s, and its JSON does not", async (_, chosen, pages) => {
    for (const name of pages) {
      const path = paths[name] ?? "";
      await reads({});
      const before = await html("author", path);
      const json = name === "chemistry" ? {} : await studio.json("author", path);
      await reads(chosen);
      expect((await html("author", path)) === before, name).toBe(false);
      if (name !== "chemistry") expect(await studio.json("author", path), name).toEqual(json);
      await reads({});
      expect((await html("author", path)) === before, name).toBe(true);
    }
  });

  it("names powders as in the region, the studio's own name in brackets, and warns once", async () => {
    for (const path of [paths.recipe, paths.batch, paths.shelf]) {
      const page = await readSo({ region: "Far Isles" }, path);
      expect(page).toMatch(/Flint \(Quartz\)/);
      expect(page.match(/“Flint” here is Quartz, and not Whiting\./g)).toHaveLength(1);
      expect(page.match(/Not the stones of the chalk\./g)).toHaveLength(1);
      expect(page).not.toMatch(/\(Kaolin\)/);
    }
    expect(await html("author", paths.recipe)).toContain('href="/materials/quartz"');
    const form = await html("author", `/recipes/${slug}/revisions/new`);
    expect(form).toContain('value="Quartz"');
    expect(form).not.toContain('value="Flint"');
  });

  it("prints pounds and ounces that add up, beside the grams", async () => {
    const page = await readSo({ weight: "lb" }, paths.batch);
    expect(page).toContain("907.2 g of base, 2 lb 0.001 oz");
    const rows = [...page.matchAll(/([\d.]+) g (?:(\d+) lb )?([\d.]+) oz/g)].map(
      ([, grams = "", pounds = "0", ounces = ""]) => ({
        grams: new Decimal(grams),
        ounces: new Decimal(pounds).times(16).plus(ounces),
      }),
    );
    const total = rows.pop();
    expect(rows).toHaveLength(5);
    const sum = (of: "grams" | "ounces") =>
      rows.reduce((all, row) => all.plus(row[of]), new Decimal(0)).toFixed();
    expect(sum("grams")).toBe(total?.grams.toFixed());
    expect(sum("ounces")).toBe(total?.ounces.toFixed());
    // 40 of 100 of 907.2 g are 362.88 g, and 362.9 g are 362.9 / 28.349523125 = 12.8009 oz.
    expect(page).toMatch(/Potash feldspar .{0,40}362\.9 g 12\.80[01] oz/);
  });

  it("prints base and total of the recipe's own table so that they add up", async () => {
    const page = await readSo({ weight: "lb" }, `${paths.recipe}?pounds=10`);
    const ounces = (text = "") => {
      const [, pounds = "0", rest = "0"] = /(?:(\d+) lb )?([\d.]+) oz/.exec(text) ?? [];
      return new Decimal(pounds).times(16).plus(rest);
    };
    const table = page.slice(page.indexOf("In lb and oz"));
    const found = [...table.matchAll(/(?:\d+ lb )?[\d.]+ oz/g)].slice(0, 7).map(([text]) => text);
    const [a, b, c, d, base, top, all] = found.map(ounces);
    expect(base?.toFixed()).toBe(Decimal.sum(a ?? 0, b ?? 0, c ?? 0, d ?? 0).toFixed());
    expect(all?.toFixed()).toBe(base?.plus(top ?? 0).toFixed());
    // 10 lb are 4535.9237 g, 4535.9 g on a scale of 0.1 g.
    expect(page).toContain("4535.9 g");
  });

  it("takes an amount without a unit for grams, whoever asks", async () => {
    const page = await readSo({ weight: "lb" }, `${paths.batch}?amount=500&scaleGrams=0.1`);
    expect(page).toContain("500 g of base, 1 lb 1.637 oz");
  });

  it("has firings in °F, to the whole degree", async () => {
    const page = await readSo({ temperature: "F" }, paths.firing);
    // 1222 × 1.8 + 32 = 2231.6; 620 and 1220 °C are 1148 and 2228 °F; 150 °C/h are 270 °F/h.
    expect(page).toContain("Cone 6 (about 2232 °F at 108 °F an hour");
    expect(page).toContain("270 °F an hour up to 1148 °F");
    expect(page).toContain("2228");
    expect(page).toContain("heated at 108 °F an hour it ends near 2232 °F");
    expect(page).toContain("± 18 °F");
    expect(page.replace(/\(\d+ °C( an hour)?\)/g, "").match(/.{20}\d °C.{10}/g) ?? []).toEqual([]);
  });

  it("has the guide's page of cones in °F", async () => {
    const page = await readSo({ temperature: "F" }, paths.cones);
    // 1063 and 1162 °C are 1945.4 and 2123.6 °F.
    expect(page).toContain("Cone 04 ends near 1945 °F, cone 4 near 2124 °F, at 108 °F an hour");
    expect(page).not.toContain("°C");
  });

  it("puts temperature or cone first and never drops the cone", async () => {
    const first = "About 1222 °C at 60 °C an hour: cone 6 (";
    expect(await readSo({ heat: "temperature" }, paths.firing)).toContain(first);
    const recipe = await readSo({ heat: "temperature" }, paths.recipe);
    expect(recipe).toContain(first);
    expect(recipe).toContain("About 1222 °C: cone 6 ends, heated at 60 °C an hour");
    expect(await readSo({}, paths.firing)).toContain("Cone 6 (about 1222 °C at 60 °C an hour,");
  });

  it("says by whose choice chemistry is counted, and leads to the usual", async () => {
    const counted = "Counted by your settings, since this address asks for nothing else.";
    for (const path of [paths.recipe, paths.number, paths.compare]) {
      await reads({ unity: "fluxes-and-colour" });
      const page = await html("author", path);
      expect(words(page)).toContain(counted);
      const usually = /href="([^"]*)">Count it the usual way/.exec(page)?.[1] ?? "";
      const there = words(await html("author", usually.replace(/&amp;/g, "&")));
      expect(there).toContain("Counted as this address asks.");
      await reads({});
      const before = words(await html("author", path));
      expect(before).not.toMatch(/Counted (by|as)/);
    }
  });

  it("counts as the address asks, whatever somebody chose", async () => {
    const chosen = { unity: "fluxes-and-colour", iron: "FeO" };
    const asked = (how: Record<string, string>) => `${paths.number}?${new URLSearchParams(how)}`;
    const value = (page: string) => /account-value">(.*?)<\/p>/.exec(page)?.[1];
    await reads({});
    const usually = value(await html("author", paths.number));
    const otherwise = value(await html("author", asked(chosen)));
    expect(usually).not.toBe(otherwise);
    await reads(chosen);
    expect(value(await html("author", paths.number))).toBe(otherwise);
    const back = { unity: "fluxes", iron: "Fe2O3" };
    expect(value(await html("author", asked(back)))).toBe(usually);
  });

  it("tells a number that is there the usual way only", async () => {
    await reads({ iron: "FeO", unity: "fluxes-and-colour" });
    const path = `/recipes/${slug}/revisions/1/numbers/unity.Fe2O3`;
    expect(await html("author", path)).toContain("account-value");
  });

  it("reads so for a visitor's browser too", async () => {
    const chosen = { temperature: "F", region: "Far Isles", unity: "fluxes-and-colour" };
    const kept = await studio.send("visitor", "/reading", { json: chosen });
    const cookie = (kept.headers.getSetCookie()[0] ?? "").split(";")[0] ?? "";
    const page = words(await html("visitor", paths.recipe, { cookie }));
    expect(page).toContain("2232 °F");
    expect(page).toContain("Flint (Quartz)");
    expect(page).toContain("Counted by your settings");
    const json = await studio.send("visitor", paths.recipe ?? "", {
      accept: "application/json",
      headers: { cookie },
    });
    expect(await json.json()).toEqual(await studio.json("visitor", paths.recipe ?? ""));
  });
});
