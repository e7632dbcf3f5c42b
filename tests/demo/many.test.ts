import { Decimal } from "decimal.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { listStrips, type Place } from "../../src/db/library.ts";
import { countStrips } from "../../src/db/library-counts.ts";
import { findKeptFaults } from "../../src/db/library-kept.ts";
import { publishRecipe } from "../../src/db/publishing.ts";
import { publishMany } from "../../src/db/publishing-many.ts";
import { findRecipe } from "../../src/db/recipes.ts";
import { draftOf, findRevision } from "../../src/db/revisions.ts";
import { madeUpRecipe } from "../../src/demo/made-up-recipes.ts";
import { makeMany } from "../../src/demo/making-many.ts";
import { openMadeDemo } from "./studio.ts";

describe("a library of any size", () => {
  let database: Database;
  const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;
  const wanted = 300;

  const find = async (slug: string) => {
    const recipe = await findRecipe(database.db, { slug, reader });
    const found =
      recipe && (await findRevision(database.db, { recipeId: recipe.id, number: recipe.head }));
    if (!recipe || !found) throw new Error(`there is no ${slug}`);
    return { ...recipe, revision: found };
  };

  beforeAll(async () => {
    database = await openMadeDemo();
    expect(await makeMany(database.db, wanted)).toBe(wanted);
  });
  afterAll(() => database.close());

  it("gives each recipe its event in a chain that holds", async () => {
    expect(await findChainFault(database.db)).toBeUndefined();
    const events = await listEvents(database.db, { limit: 10_000 });
    const last = events.slice(-wanted);
    expect(new Set(last.map(({ subjectId }) => subjectId)).size).toBe(wanted);
    expect(new Set(last.map(({ kind }) => kind))).toEqual(new Set(["published"]));
  });

  it("makes the same recipes every time, and adds only what is missing", async () => {
    expect(await makeMany(database.db, wanted)).toBe(0);
    expect(await makeMany(database.db, wanted + 5)).toBe(5);
    expect(madeUpRecipe(7)).toEqual(madeUpRecipe(7));
    expect(madeUpRecipe(7)).not.toEqual(madeUpRecipe(8));
    const { strips } = await listStrips(database.db, {
      reader,
      now: new Date("2026-11-01T09:00:00Z"),
      search: {},
      limit: 1000,
    });
    expect(strips.length).toBe(16 + wanted + 5);
  });

  it("is searched no further than the best 200, page by page, and counted no further than all", async () => {
    const now = new Date("2026-11-01T09:00:00Z");
    const search = { terms: [{ words: [["volume"]], begins: false, ids: [] }], typed: "volume" };
    const found: string[] = [];
    let after: Place | undefined;
    do {
      const page = await listStrips(database.db, { reader, now, search, after, limit: 60 });
      found.push(...page.strips.map(({ slug }) => slug));
      after = page.next ?? undefined;
    } while (after);
    expect([found.length, new Set(found).size]).toEqual([200, 200]);
    expect((await countStrips(database.db, { reader, now, search })).all).toBe(wanted + 5);
    expect(await findKeptFaults(database.db)).toEqual([]);
  });

  it("names ten thousand without a double and weighs a base of 100 in halves", () => {
    const recipes = Array.from({ length: 10_000 }, (_, number) => madeUpRecipe(number));
    expect(new Set(recipes.map(({ name }) => name.toLowerCase())).size).toBe(10_000);
    for (const { base, name } of recipes) {
      const amounts = base.map(([, amount]) => new Decimal(amount));
      expect(Decimal.sum(...amounts).toString(), name).toBe("100");
      expect(amounts.every((amount) => amount.gt(0) && amount.times(2).isInteger())).toBe(true);
    }
  });

  // Common practice, no source: wide enough for everything that melts at cone 6 and is no slip.
  it("makes them of plausible chemistry", async () => {
    for (let number = 0; number < 40; number += 1) {
      const { chemistry } = (await find(slugs(number))).revision;
      const { SiO2, Al2O3, B2O3 } = chemistry.unity ?? {};
      expect(SiO2?.value).toBeGreaterThan(1.8);
      expect(SiO2?.value).toBeLessThan(6);
      expect(Al2O3?.value).toBeGreaterThan(0.2);
      expect(Al2O3?.value).toBeLessThan(0.65);
      expect(B2O3?.value).toBeGreaterThan(0.05);
      expect(B2O3?.value).toBeLessThan(0.4);
      expect(chemistry.findings.filter(({ level }) => level === "stop")).toEqual([]);
    }
  });

  const slugs = (number: number) => madeUpRecipe(number).name.toLowerCase().replaceAll(" ", "-");

  it("leaves behind what publishing one alone does", async () => {
    const { revision, owner } = await find("slack-water");
    const act = { by: owner.id, at: new Date("2026-11-20T10:00:00Z") };
    const draft = draftOf(revision, "the same again");
    const given = { shownTo: "public" as const, draft, forkedFrom: revision.id, ...act };
    const [alone, among] = ["Slack Alone", "Slack Among"];
    await publishRecipe(database.db, { name: alone, ...given });
    expect(await publishMany(database.db, [{ name: among, ...given }])).toEqual({
      published: 1,
      nameTaken: 0,
    });
    const { id: _a, slug: _b, name: _c, revision: one, ...oneRecipe } = await find("slack-alone");
    const { id: _d, slug: _e, name: _f, revision: two, ...twoRecipe } = await find("slack-among");
    expect(twoRecipe).toEqual(oneRecipe);
    expect({ ...two, id: one.id, recipeId: one.recipeId }).toEqual(one);
    const [first, second] = (await listEvents(database.db, { limit: 10_000 })).slice(-2);
    expect([second?.kind, second?.detail, second?.by]).toEqual([
      first?.kind,
      first?.detail,
      first?.by,
    ]);
  });

  it("leaves out a name that is taken, and finds an address where only that is", async () => {
    const { revision, owner } = await find("slack-water");
    const act = { by: owner.id, at: new Date("2026-11-21T10:00:00Z") };
    const draft = draftOf(revision, "");
    const offered = ["SLACK  WATER", "Slack Water!", "New", "Twice", "twice"].map((name) => ({
      name,
      shownTo: "public" as const,
      draft,
      ...act,
    }));
    expect(await publishMany(database.db, offered)).toEqual({ published: 3, nameTaken: 2 });
    expect((await find("slack-water-2")).name).toBe("Slack Water!");
    expect((await find("new-2")).name).toBe("New");
    expect(await findChainFault(database.db)).toBeUndefined();
  });
});
