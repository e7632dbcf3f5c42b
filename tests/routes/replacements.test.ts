import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listHeadsWith } from "../../src/db/heads-with.ts";
import { findMaterial } from "../../src/db/materials.ts";
import { solver } from "../../src/work/solver.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Line = { part: string; material: string; amount: string };
type Item = {
  slug: string;
  basedOn: number;
  is: string;
  because: string | null;
  lines: { before: Line[]; after: Line[] | null };
  worst: { of: string; difference: number; plusMinus: number } | null;
  withinDoubt: boolean | null;
  misses: { oxide: string; because: string }[];
  figures: { of: string }[];
  approved: { number: number; for: string } | null;
};
type Looked = { items: Item[]; next: string | null };
type Recipe = {
  head: {
    number: number;
    message: string;
    author: { name: string };
    lines: (Line & { analysis: { id: string } | null })[];
  };
  standing: { is: string };
  approved: { number: number } | null;
};
type Problem = { errors: { path: string; says: string }[] };

let studio: TestStudio;
let made = 0;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await solver.end();
  await studio.close();
});

/** A feldspar of its own for one test, so that no other recipe has it. @returns its slug. */
async function feldspar(name: string, formula = "K2O·Al2O3·6SiO2"): Promise<string> {
  made += 1;
  const json = { name: `${name} ${made}`, kind: "feldspar", formula };
  const answer = await studio.send("manager", "/materials", { json });
  return ((await answer.json()) as { slug: string }).slug;
}
const glaze = (powder: string, more: Parameters<typeof publish>[1] = {}) =>
  publish(studio, {
    lines: [
      [powder, "40"],
      ["whiting", "20"],
      ["quartz", "25"],
      ["kaolin", "15"],
      ["red-iron-oxide", "2", "addition"],
    ],
    ...more,
  });
const look = (slug: string, query: string, who: Who = "manager") =>
  studio.json<Looked>(who, `/materials/${slug}/replacement?${query}`);
const act = (slug: string, json: Record<string, unknown>, who: Who = "manager") =>
  studio.send(who, `/materials/${slug}/replacement`, { json });
const read = (slug: string) => studio.json<Recipe>("author", `/recipes/${slug}`);
const heads = async (...slugs: string[]) =>
  Promise.all(slugs.map(async (slug) => (await read(slug)).head.number));
const revise = (slug: string, powder: string) =>
  studio.send("author", `/recipes/${slug}/revisions`, {
    json: {
      ...revision({ basedOn: 1 }, [
        [powder, "50"],
        ["whiting", "50"],
      ]),
    },
  });

describe("a look at what stands in for a material", () => {
  it("finds the same formula where a powder of the same formula is there", async () => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const slug = await glaze(ends);
    const { items, next } = await look(ends, `with=${twin}`);
    expect(next).toBeNull();
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ slug, basedOn: 1, is: "exact", withinDoubt: true });
    expect(
      items[0]?.lines.after?.map(({ part, material, amount }) => [part, material, amount]),
    ).toEqual(
      expect.arrayContaining([
        ["base", twin, "40"],
        ["base", "quartz", "25"],
        ["addition", "red-iron-oxide", "2"],
      ]),
    );
    expect(items[0]?.figures.map(({ of }) => of)).toContain("loss");
  });

  it("tells how far off the nearest is, and why", async () => {
    const ends = await feldspar("Heron spar");
    const soda = await feldspar("Soda spar", "Na2O·Al2O3·6SiO2");
    await glaze(ends);
    const [item] = (await look(ends, `with=${soda}`)).items;
    expect(item).toMatchObject({ is: "nearest", withinDoubt: false });
    expect(Math.abs(item?.worst?.difference ?? 0)).toBeGreaterThan(item?.worst?.plusMinus ?? 1);
    expect(item?.misses).toContainEqual(
      expect.objectContaining({
        oxide: "K2O",
        because: "No material of the shelf brings K2O.",
      }),
    );
    const html = await (await studio.send("manager", `/materials/${ends}/replacement`)).text();
    expect(html).toContain("A restated glaze is a new tile");
    expect(html).toContain("Publish what is ticked, for review");
  });

  it("leaves to a person what is an addition, and says what cannot be done", async () => {
    const ends = await feldspar("Heron spar");
    const onTop = await publish(studio, {
      lines: [
        ["potash-feldspar", "60"],
        ["whiting", "40"],
        [ends, "3", "addition"],
      ],
    });
    const fluxless = await publish(studio, {
      lines: [
        [ends, "50"],
        ["quartz", "50"],
      ],
    });
    const { items } = await look(ends, "with=kaolin");
    const found = Object.fromEntries(items.map(({ slug, is, because }) => [slug, { is, because }]));
    expect(found[onTop]?.is).toBe("by hand");
    expect(found[onTop]?.because).toContain("is an addition here");
    expect(found[fluxless]?.is).toBe("none");
    expect(found[fluxless]?.because).toContain("flux");
  });

  it("allows no more new powders than were asked for", async () => {
    const [ends, soda] = [
      await feldspar("Heron spar"),
      await feldspar("Soda spar", "Na2O·Al2O3·6SiO2"),
    ];
    const twin = await feldspar("Tern spar");
    await glaze(ends);
    for (const [most, brings] of [
      [0, []],
      [1, [twin]],
    ] as const) {
      const [item] = (await look(ends, `with=${soda}&with=${twin}&most=${most}`)).items;
      const after = item?.lines.after?.map(({ material }) => material) ?? [];
      expect(after.filter((slug) => slug === soda || slug === twin)).toEqual(brings);
    }
  });

  it("shows people what they may know of, and nothing that was withdrawn", async () => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const shown = await glaze(ends);
    const own = await glaze(ends, { shownTo: "private" });
    const gone = await glaze(ends);
    await studio.send("author", `/recipes/${gone}/withdrawal`, { json: { why: "It runs." } });
    const seen = async (who: Who) =>
      (await look(ends, `with=${twin}`, who)).items.map(({ slug }) => slug).sort();
    expect(await seen("other member")).toEqual([shown]);
    expect(await seen("author")).toEqual([own, shown].sort());
    const html = await (
      await studio.send("other member", `/materials/${ends}/replacement?with=${twin}`)
    ).text();
    expect(html).not.toContain("Publish what is ticked");
  });

  it.each<[string, string, string]>([
    ["a powder nobody knows", "with=unobtainium", "with.0"],
    ["one without an analysis", "with=loft-stain-coral", "with.0"],
    ["itself", "with=whiting", "with.0"],
    ["a reason that is none", "reason=boredom", "reason"],
    [
      "an analysis of something else",
      `reason=lot&analysis=${"0".repeat(8)}-0000-7000-8000-${"0".repeat(12)}`,
      "analysis",
    ],
    ["a number that is none", "most=-1", "most"],
  ])("is refused with %s, with its place", async (_, query, path) => {
    const answer = await studio.send("manager", `/materials/whiting/replacement?${query}`, {
      accept: "application/json",
    });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as Problem).errors.map((error) => error.path)).toEqual([path]);
  });

  it("goes on after the last recipe of the page before", async () => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const [one, other] = [await glaze(ends), await glaze(ends)];
    const material = await findMaterial(studio.db, ends);
    const reader = { id: studio.ids.manager, role: "manager" } as const;
    const asked = { materialId: material?.id ?? "", reader, limit: 1 };
    const first = await listHeadsWith(studio.db, asked);
    const [shown] = first.items.map(({ recipe }) => recipe.slug);
    expect([one, other]).toContain(shown);
    const rest = await look(ends, `with=${twin}&after=${encodeURIComponent(first.next ?? "")}`);
    expect(rest).toMatchObject({ next: null, items: [{ slug: shown === one ? other : one }] });
  });
});

describe("publishing what stands in", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("answers the %s with %i", async (who, status) => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const slug = await glaze(ends);
    const answer = await act(ends, { with: [twin], recipes: [{ slug, basedOn: 1 }] }, who);
    expect(answer.status).toBe(status);
    expect(await heads(slug)).toEqual([status === 201 ? 2 : 1]);
  });

  it("puts each in review at once, by the manager, and what was approved stays so", async () => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const [one, other] = [await glaze(ends), await glaze(ends)];
    const approval = { revision: 1, verdict: "approve", for: "decorative", reasons: "It holds." };
    const approved = await studio.send("reviewer", `/recipes/${one}/reviews`, { json: approval });
    expect(approved.status).toBe(201);
    const { items } = await look(ends, `with=${twin}`);
    expect(items.find(({ slug }) => slug === one)?.approved).toMatchObject({ number: 1 });
    const news = await studio.send("author", `/recipes/${one}`);
    const address = /data-news="([^"]+)"/.exec(await news.text())?.[1] ?? "";

    const answer = await act(ends, {
      with: [twin],
      message: "The quarry is closed.",
      recipes: items.map(({ slug, basedOn }) => ({ slug, basedOn })),
    });
    expect(answer.status).toBe(201);
    const { revisions } = (await answer.json()) as {
      revisions: { recipe: string; number: number }[];
    };
    expect(revisions.map(({ recipe, number }) => [recipe, number]).sort()).toEqual(
      [
        [one, 2],
        [other, 2],
      ].sort(),
    );
    for (const slug of [one, other]) {
      const { head, standing } = await read(slug);
      expect(standing.is).toBe("in review");
      expect(head.author.name).toBe("Ines Okafor");
      expect(head.message).toMatch(
        /^Restated without Heron spar \d+, which ended\. Tern spar \d+ stands in\. The quarry is closed\.$/,
      );
      expect(head.lines.map(({ material }) => material)).not.toContain(ends);
      expect(head.lines.every(({ analysis }) => analysis !== null)).toBe(true);
    }
    expect((await read(one)).approved).toMatchObject({ number: 1 });
    const told = await studio.json<{ items: { by: string; says: string }[] }>("author", address);
    expect(told.items.map(({ by }) => by)).toContain("Ines Okafor");
    const waits = await studio.json<{ items: { says: string }[] }>("reviewer", "/waiting");
    expect(JSON.stringify(waits)).toContain(one);
    expect((await look(ends, `with=${twin}`)).items).toEqual([]);
  });

  it("publishes none where one was revised meanwhile", async () => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const [one, moved, third] = [await glaze(ends), await glaze(ends), await glaze(ends)];
    await revise(moved, ends);
    const answer = await act(ends, {
      with: [twin],
      recipes: [one, moved, third].map((slug) => ({ slug, basedOn: 1 })),
    });
    expect(answer.status).toBe(409);
    const problem = (await answer.json()) as Problem & { type: string };
    expect(problem.type).toBe("/problems/stale");
    expect(problem.errors.map(({ path }) => path)).toEqual(["recipes.1.basedOn"]);
    expect(await heads(one, moved, third)).toEqual([1, 2, 1]);
  });

  it("lets one of two go first, and the other publish nothing", async () => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const [one, other] = [await glaze(ends), await glaze(ends)];
    const recipes = [one, other].map((slug) => ({ slug, basedOn: 1 }));
    const both = await Promise.all(
      [recipes, [...recipes].reverse()].map((order) => act(ends, { with: [twin], recipes: order })),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([201, expect.toBeOneOf([409, 422])]);
    expect(await heads(one, other)).toEqual([2, 2]);
  });

  it.each<[string, (slug: string, hopeless: string) => unknown, string]>([
    ["nothing ticked", () => [], "recipes"],
    [
      "one that cannot be",
      (slug, hopeless) => [
        { slug, basedOn: 1 },
        { slug: hopeless, basedOn: 1 },
      ],
      "recipes.1",
    ],
    [
      "a recipe without the material",
      (slug) => [
        { slug, basedOn: 1 },
        { slug: "no-such", basedOn: 1 },
      ],
      "recipes.1",
    ],
    [
      "one twice",
      (slug) => [
        { slug, basedOn: 1 },
        { slug, basedOn: 1 },
      ],
      "recipes.1",
    ],
    ["amounts of somebody's own", (slug) => [{ slug, basedOn: 1, lines: [] }], "recipes.0.lines"],
  ])("is refused with %s, with its place, and nothing is written", async (_, recipes, path) => {
    const ends = await feldspar("Heron spar");
    const slug = await glaze(ends);
    const hopeless = await publish(studio, {
      lines: [
        [ends, "50"],
        ["quartz", "50"],
      ],
    });
    const answer = await act(ends, { with: ["kaolin"], recipes: recipes(slug, hopeless) });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as Problem).errors.map((error) => error.path)).toEqual([path]);
    expect(await heads(slug, hopeless)).toEqual([1, 1]);
  });

  it("takes a form, and comes back with what was typed where it is refused", async () => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const [one, other] = [await glaze(ends), await glaze(ends)];
    const send = (...recipes: string[]) => {
      const form = new FormData();
      form.set("with", twin);
      form.set("message", "Ask for the grey sack.");
      for (const recipe of recipes) form.append("recipes", recipe);
      return studio.send("manager", `/materials/${ends}/replacement`, { form });
    };
    const stale = await send(`${one}@1`, `${other}@7`);
    expect(stale.status).toBe(409);
    const html = await stale.text();
    expect(html).toContain("was revised since this page was read");
    expect(html).toContain("Ask for the grey sack.");
    expect(html).toMatch(new RegExp(`value="${one}@1" checked`));
    expect(html).toContain(`href="#field-recipes.1"`);
    expect(html).toMatch(new RegExp(`id="field-recipes.1" name="recipes" value="${other}@1"`));
    const sent = await send(`${one}@1`);
    expect(sent.status).toBe(303);
    expect(await heads(one, other)).toEqual([2, 1]);
    const left = await studio.send("manager", sent.headers.get("location") ?? "");
    expect(await left.text()).toContain(`value="${other}@1"`);
  });

  it("restates for another analysis of the same powder, once that is in use", async () => {
    const ends = await feldspar("Heron spar");
    const slug = await glaze(ends);
    const added = await studio.send("manager", `/materials/${ends}/analyses`, {
      json: {
        inUse: false,
        source: "the new bag, invented",
        oxides: { SiO2: { percent: "66" }, Al2O3: { percent: "18" }, K2O: { percent: "15" } },
        lossOnIgnition: { percent: "1" },
      },
    });
    const { analyses } = (await added.json()) as { analyses?: { id: string; is: string }[] };
    const waiting =
      analyses?.find(({ is }) => is === "waiting")?.id ??
      (
        await studio.json<{ analyses: { id: string; is: string }[] }>(
          "manager",
          `/materials/${ends}`,
        )
      ).analyses.find(({ is }) => is === "waiting")?.id;
    const choices = { reason: "lot", analysis: waiting };
    const [item] = (await look(ends, `reason=lot&analysis=${waiting}`)).items;
    expect(item).toMatchObject({ slug, is: "exact" });
    // Less of what has more potash in it, and clay and quartz make up for the rest.
    const amount = item?.lines.after?.find(({ material }) => material === ends)?.amount;
    expect(Number(amount)).toBeGreaterThan(30);
    expect(Number(amount)).not.toBe(40);
    const recipes = [{ slug, basedOn: 1 }];
    const early = await act(ends, { ...choices, recipes });
    expect(early.status).toBe(422);
    expect(((await early.json()) as Problem).errors.map(({ path }) => path)).toEqual(["analysis"]);
    await studio.send("manager", `/materials/${ends}/analysis-in-use`, {
      method: "PUT",
      json: { analysis: waiting, why: "The old bag is empty." },
    });
    expect((await act(ends, { ...choices, recipes })).status).toBe(201);
    const { head } = await read(slug);
    expect(head.lines.find(({ material }) => material === ends)?.analysis?.id).toBe(waiting);
    expect((await look(ends, "reason=lot")).items).toEqual([]);
  });

  it("is done once, however often it is sent", async () => {
    const [ends, twin] = [await feldspar("Heron spar"), await feldspar("Tern spar")];
    const slug = await glaze(ends);
    const json = { with: [twin], recipes: [{ slug, basedOn: 1 }] };
    const headers = { "idempotency-key": `${ends}-once` };
    const path = `/materials/${ends}/replacement`;
    const first = await studio.send("manager", path, { json, headers });
    const second = await studio.send("manager", path, { json, headers });
    expect([first.status, second.status]).toEqual([201, 201]);
    expect(await second.json()).toEqual(await first.json());
    expect(await heads(slug)).toEqual([2]);
  });
});

it("is led to from a material that is no longer sold, for people of the studio", async () => {
  const ends = await feldspar("Heron spar");
  await glaze(ends);
  const since = { since: "2026-10-01", why: "The quarry is closed." };
  await studio.send("manager", `/materials/${ends}/discontinuation`, {
    method: "PUT",
    json: since,
  });
  const linked = `href="/materials/${ends}/replacement"`;
  for (const who of everybody) {
    const html = await (await studio.send(who, `/materials/${ends}`)).text();
    expect([who, html.includes(linked)]).toEqual([who, who !== "visitor"]);
  }
});

it("is not for visitors", async () => {
  for (const who of everybody) {
    const answer = await studio.send(who, "/materials/barium-carbonate/replacement");
    expect([who, answer.status]).toEqual([who, who === "visitor" ? 401 : 200]);
  }
});
