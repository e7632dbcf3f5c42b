import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { GlossaryEntry } from "../../src/db/glossary.ts";
import { guide } from "../../views/guide/guide.ts";
import type { GuidePage } from "../../views/guide/types.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Names = { regions: string[]; items: GlossaryEntry[] };

describe("the guide", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const page = async (path: string) => (await studio.send("visitor", path)).text();
  const names = (region = "") =>
    studio.json<Names>("visitor", `/guide/names?${new URLSearchParams({ region })}`);

  it("lists its pages for everybody", async () => {
    const { items } = await studio.json<{ items: { slug: string }[] }>("visitor", "/guide");
    expect(items.map(({ slug }) => slug)).toEqual(guide.map(({ slug }) => slug));
    for (const { slug } of items) expect(await page("/guide")).toContain(`href="/guide/${slug}"`);
  });

  it("tells each page in JSON as on the page", async () => {
    const told = await studio.json<GuidePage & { next: { slug: string } }>(
      "visitor",
      "/guide/cones",
    );
    expect(told).toMatchObject({ title: "Cones", next: { slug: "unity-formula" } });
    const shown = await page("/guide/cones");
    for (const { id, title } of told.sections) expect(shown).toContain(`<h2 id="${id}">${title}`);
    for (const sentence of told.worked ?? []) expect(shown).toContain(sentence);
  });

  it("has no other page", async () => {
    expect((await studio.send("visitor", "/guide/nothing")).status).toBe(404);
  });

  it("leads there from a term", async () => {
    expect(await page("/slurry")).toContain('href="/guide/bucket#gravity"');
  });

  it("has no names while no powder is there", async () => {
    expect(await names()).toEqual({ regions: [], items: [] });
    expect(await page("/guide/names")).toContain("No powder is on the shelf yet.");
  });

  it("says what a powder is called where, and what not to buy", async () => {
    await stockShelf(studio);
    const call = (slug: string, name: string, region: string, caution = "") =>
      studio.send("author", `/materials/${slug}/names`, { json: { name, region, caution } });
    await call("whiting", "Chalk", "Fenland", "Ground for glazes, not for walls.");
    await call("quartz", "Chalk", "Moorland", "A flint that is ground white.");
    await call("quartz", "Flint", "Fenland");

    const all = await names();
    expect(all.regions).toEqual(["Fenland", "Moorland"]);
    expect(all.items).toHaveLength(7);
    const there = await names("fenland");
    expect(there.items.map(({ slug }) => slug)).toEqual(["quartz", "whiting"]);
    expect(there.items[1]).toMatchObject({
      names: [{ name: "Chalk", region: "Fenland", caution: "Ground for glazes, not for walls." }],
      lookAlikes: [
        {
          word: "Chalk",
          slug: "quartz",
          region: "Moorland",
          caution: "A flint that is ground white.",
        },
      ],
    });
    expect(there.items[0]?.names.map(({ name }) => name)).toEqual(["Flint"]);
    const shown = await page("/guide/names?region=Fenland");
    expect(shown).toContain("Do not buy by the word “Chalk”:");
    expect(shown).toContain("A flint that is ground white.");
    expect(shown).not.toContain("Potash feldspar");
  });

  it("says where a region has no names", async () => {
    expect((await names("Uplands")).items).toEqual([]);
    expect(await page("/guide/names?region=Uplands")).toContain("has a name in Uplands on record");
    const long = await studio.send("visitor", `/guide/names?region=${"x".repeat(61)}`);
    expect(long.status).toBe(422);
  });
});
