import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Changed = {
  slug: string;
  powders: { material: string; pinned: string; inUse: string }[];
  moves: { kind: string; oxide?: string }[];
  differences: {
    of: string;
    before: number;
    after: number;
    difference: number;
    plusMinus: number;
  }[];
};

describe("today's powders", () => {
  let studio: TestStudio;
  let slug: string;
  let hidden: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
    hidden = await publish(studio, { shownTo: "private" });
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const list = async (who: "visitor" | "manager" | "other member") =>
    (await studio.json<{ items: Changed[] }>(who, "/powder-changes")).items;
  const today = async () =>
    (await studio.json<{ today: Changed | null }>("visitor", `/recipes/${slug}`)).today;
  const analyse = (formula: string, who: "manager" | "author" = "manager") =>
    studio.send(who, "/materials/potash-feldspar/analyses", {
      json: { source: "demo analysis", formula },
    });

  it("have changed nothing as long as nothing was analysed anew", async () => {
    expect(await list("manager")).toEqual([]);
    expect(await today()).toBeNull();
  });

  it("change nothing while a member's analysis waits", async () => {
    expect((await analyse("Na2O·Al2O3·6SiO2", "author")).status).toBe(201);
    expect(await list("manager")).toEqual([]);
  });

  it("tell each recipe what a new analysis in use does to it, and leave its revision alone", async () => {
    const before = await studio.json("visitor", `/recipes/${slug}/revisions/1`);
    expect((await analyse("0.7K2O·0.3Na2O·Al2O3·6SiO2")).status).toBe(201);
    const change = await today();
    expect(change?.powders.map(({ material }) => material)).toEqual(["potash-feldspar"]);
    // Soda comes in where there was none: more than 0.01 mol.
    expect(change?.moves).toContainEqual(expect.objectContaining({ kind: "unity", oxide: "Na2O" }));
    const soda = change?.differences.find(({ of }) => of === "Na2O");
    expect(soda?.before).toBe(0);
    expect(soda?.difference).toBeCloseTo(soda?.after ?? 0, 12);
    expect(await studio.json("visitor", `/recipes/${slug}/revisions/1`)).toEqual(before);
  });

  it("list what the reader may know of", async () => {
    expect((await list("visitor")).map((item) => item.slug)).toEqual([slug]);
    expect((await list("other member")).map((item) => item.slug)).toEqual([slug]);
    expect((await list("manager")).map((item) => item.slug).sort()).toEqual([hidden, slug].sort());
  });

  it("are told on the pages in words", async () => {
    const page = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    expect(page).toContain("not quite the same glaze any more");
    const all = await (await studio.send("visitor", "/powder-changes")).text();
    expect(all).toContain("in the unity formula from");
  });

  it("refuse a place that is none", async () => {
    expect(
      (await studio.send("visitor", "/powder-changes?after=x", { accept: "application/json" }))
        .status,
    ).toBe(422);
  });
});
