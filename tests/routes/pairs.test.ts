import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { pairReviews, pairs } from "../../src/db/schema/index.ts";
import type { wholePairJson } from "../../src/routes/pair-json.ts";
import { fireTile, testTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type PairJson = ReturnType<typeof wholePairJson>;

const functional = { use: "functional" };

describe("layered pairs", () => {
  let studio: TestStudio;
  let made = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    expect(await findChainFault(studio.db)).toBeUndefined();
    await studio.close();
  });

  /** A pale glaze of a melt of its own, so that no test's evidence counts in another. */
  const glaze = (more: Parameters<typeof publish>[1] = {}) => {
    made += 1;
    return publish(studio, {
      different: functional,
      lines: [
        ["potash-feldspar", String(40 + made)],
        ["whiting", "20"],
        ["quartz", "25"],
        ["kaolin", "15"],
      ],
      ...more,
    });
  };
  const lay = async (who: Who, over: string, under: string, more = {}) => {
    const json = { over: `${over}@1`, under: `${under}@1`, ...more };
    const answer = await studio.send(who, "/pairs", { json });
    return { status: answer.status, answer, pair: (await answer.json()) as PairJson };
  };
  const newPair = async () => {
    const [over, under] = [await glaze(), await glaze()];
    return { over, under, id: (await lay("author", over, under)).pair.id };
  };
  const read = (id: string, who: Who = "visitor") => studio.json<PairJson>(who, `/pairs/${id}`);
  const pageOf = async (path: string, who: Who = "visitor") =>
    (await studio.send(who, path)).text();
  const review = (who: Who, id: string, json = {}) =>
    studio.send(who, `/pairs/${id}/reviews`, {
      json: { verdict: "approve", for: "functional", reasons: "Seen both tiles.", ...json },
    });
  const bringEvidence = async ({ over, under }: { over: string; under: string }) => {
    const tile = await fireTile(studio, over, { over: `${under}@1` });
    const tests = [];
    for (const kind of ["acid", "alkali", "dishwasher"])
      tests.push(await testTile(studio, over, { tile, kind }));
    return { tile, tests };
  };

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("lets anybody of the studio put one on record: %s %i", async (who, status) => {
    const before = await studio.db.$count(pairs);
    const { answer, pair } = await lay(who, await glaze(), await glaze(), { about: "Thin." });
    expect(answer.status).toBe(status);
    expect((await studio.db.$count(pairs)) - before).toBe(status === 201 ? 1 : 0);
    if (status !== 201) return;
    expect(answer.headers.get("location")).toBe(`/pairs/${pair.id}`);
    expect(await read(pair.id)).toEqual(pair);
    expect(pair).toMatchObject({
      about: "Thin.",
      standing: { is: "draft", for: "decorative" },
      tiles: [],
      reviews: [],
    });
  });

  it("keeps a pair once, and the other way round as another", async () => {
    const { over, under, id } = await newPair();
    const again = await lay("other member", over, under);
    expect(again.status).toBe(409);
    expect(again.pair).toMatchObject({ pair: `/pairs/${id}` });
    const form = { over: `${over}@1`, under: `${under}@1`, about: "Mine." };
    const page = await studio.send("author", "/pairs", { form });
    expect(page.status).toBe(409);
    const text = await page.text();
    expect(text).toContain(`href="/pairs/${id}"`);
    expect(text).toContain("Mine.");
    expect((await lay("author", under, over)).status).toBe(201);
    const third = await glaze();
    const both = await Promise.all([0, 1].map(() => lay("author", over, third)));
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
  });

  it.each<[string, (slug: string) => object, string]>([
    ["no such revision", (slug) => ({ over: `${slug}@9`, under: `${slug}@1` }), "over"],
    ["no such recipe", (slug) => ({ over: `${slug}@1`, under: "nowhere@1" }), "under"],
    ["itself", (slug) => ({ over: `${slug}@1`, under: `${slug}@1` }), "under"],
    ["no address", (slug) => ({ over: "Slack Water 2", under: `${slug}@1` }), "over"],
    ["nothing beneath", (slug) => ({ over: `${slug}@1` }), "under"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const answer = await studio.send("author", "/pairs", { json: json(await glaze()) });
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string }[] };
    expect(errors.map((error) => error.path)).toEqual([path]);
  });

  it("does not let on that either glaze is there where it is private", async () => {
    const hidden = await glaze({ shownTo: "private" });
    const open = await glaze();
    expect((await lay("other member", open, hidden)).status).toBe(422);
    const { pair } = await lay("author", open, hidden);
    expect((await read(pair.id, "manager")).under.slug).toBe(hidden);
    for (const who of ["visitor", "other member", "reviewer"] as const) {
      expect((await studio.send(who, `/pairs/${pair.id}`)).status).toBe(404);
      expect(await pageOf("/pairs", who)).not.toContain(`/pairs/${pair.id}`);
      expect(await pageOf(`/recipes/${open}`, who)).not.toContain(`/pairs/${pair.id}`);
    }
    expect((await review("reviewer", pair.id)).status).toBe(404);
  });

  it("pages through them, newest first", async () => {
    const { id } = await newPair();
    const { items } = await studio.json<{ items: PairJson[] }>("visitor", "/pairs");
    expect(items[0]?.id).toBe(id);
    const after = await studio.json<{ items: PairJson[] }>("visitor", `/pairs?after=${id}`);
    expect(after.items.map((pair) => pair.id)).toEqual(items.slice(1).map((pair) => pair.id));
    expect((await studio.send("visitor", "/pairs?after=7")).status).toBe(422);
  });

  it("has the tiles of the pair, by melt on both sides, and no others", async () => {
    const pair = await newPair();
    const { tile } = await bringEvidence(pair);
    const { head } = await studio.json<{ head: { lines: object[] } }>(
      "visitor",
      `/recipes/${pair.under}`,
    );
    expect(head.lines).toHaveLength(4);
    const fork = await studio.send("other member", `/recipes/${pair.under}/forks`, {
      json: { revision: 1, name: `Fork of ${pair.under}` },
    });
    const twin = ((await fork.json()) as { slug: string }).slug;
    const ofTwin = await fireTile(studio, pair.over, { over: `${twin}@1` });
    await fireTile(studio, pair.over);
    await fireTile(studio, pair.over, { over: `${await glaze()}@1` });
    await fireTile(studio, pair.under, { over: `${pair.over}@1` });
    expect((await read(pair.id)).tiles.map(({ id }) => id)).toEqual([tile, ofTwin]);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 201],
    ["manager", 201],
  ])("lets reviewers and managers review: %s %i", async (who, status) => {
    const { id } = await newPair();
    expect((await review(who, id, { verdict: "remark" })).status).toBe(status);
    expect((await read(id)).reviews).toHaveLength(status === 201 ? 1 : 0);
    expect((await read(id)).standing.is).toBe(status === 201 ? "in review" : "draft");
  });

  it.each(["over", "under"])("lets nobody review who wrote what lies %s", async (which) => {
    const own = await glaze({ who: "reviewer" });
    const other = await glaze();
    const { pair } =
      which === "over" ? await lay("author", own, other) : await lay("author", other, own);
    const before = await studio.db.$count(pairReviews);
    expect((await review("reviewer", pair.id, { for: "decorative" })).status).toBe(403);
    expect(await studio.db.$count(pairReviews)).toBe(before);
    expect((await review("manager", pair.id, { for: "decorative" })).status).toBe(201);
    expect((await read(pair.id)).standing).toMatchObject({ is: "approved", for: "decorative" });
  });

  it("names all that is missing for functional ware, and keeps nothing", async () => {
    const { id } = await newPair();
    const answer = await review("reviewer", id);
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string; says: string }[] };
    expect(errors.map(({ path }) => path)).toEqual(["for", "for", "for", "for"]);
    expect(errors.map(({ says }) => says).join(" ")).toMatch(
      /No tile .* acid .* alkali .* dishwasher/,
    );
    expect((await read(id)).missing.map(({ code }) => code)).toEqual([
      ...["tile-low", "acid", "alkali", "dishwasher"],
    ]);
    const form = { verdict: "approve", for: "functional", reasons: "Kept words." };
    const page = await studio.send("reviewer", `/pairs/${id}/reviews`, { form });
    expect(page.status).toBe(422);
    expect(await page.text()).toContain("Kept words.");
    expect((await read(id)).reviews).toEqual([]);
  });

  it("takes no tile of either glaze alone for evidence", async () => {
    const pair = await newPair();
    for (const slug of [pair.over, pair.under]) {
      const tile = await fireTile(studio, slug);
      for (const kind of ["acid", "alkali", "dishwasher"])
        await testTile(studio, slug, { tile, kind });
    }
    expect((await review("reviewer", pair.id)).status).toBe(422);
  });

  it("is approved on the pair's own evidence, and says so on both recipes' pages", async () => {
    const pair = await newPair();
    await bringEvidence(pair);
    expect((await review("reviewer", pair.id)).status).toBe(201);
    expect((await read(pair.id)).standing).toMatchObject({ is: "approved", for: "functional" });
    const nothing = "says nothing of where it overlaps another glaze";
    for (const slug of [pair.over, pair.under, await glaze()]) {
      const page = await pageOf(`/recipes/${slug}`);
      expect(page).toContain(nothing);
      expect(page).toContain("a layered pair is decorative only");
      expect(page.includes(`/pairs/${pair.id}`)).toBe([pair.over, pair.under].includes(slug));
    }
    type Recipe = { pairs: PairJson[]; standing: { is: string } };
    const recipe = await studio.json<Recipe>("visitor", `/recipes/${pair.over}`);
    expect(recipe.pairs).toMatchObject([{ id: pair.id, standing: { for: "functional" } }]);
    expect(recipe.standing.is).toBe("draft");
    expect(await pageOf(`/pairs/${pair.id}`)).not.toMatch(/food safe|safe for food/i);
  });

  it.each<
    [
      string,
      number,
      (pair: { over: string; under: string }, tile: string, test: string) => Promise<Response>,
    ]
  >([
    [
      "its tile is withdrawn",
      422,
      (_, tile) => studio.send("author", `/tiles/${tile}/withdrawal`, { json: { why: "Wrong." } }),
    ],
    [
      "a test is withdrawn",
      422,
      (_, __, test) =>
        studio.send("author", `/tests/${test}/withdrawal`, { json: { why: "Wrong." } }),
    ],
    [
      "the glaze on top is withdrawn",
      422,
      ({ over }) =>
        studio.send("author", `/recipes/${over}/withdrawal`, {
          method: "PUT",
          json: { why: "It runs." },
        }),
    ],
    [
      "the one beneath is withdrawn",
      422,
      ({ under }) =>
        studio.send("author", `/recipes/${under}/withdrawal`, {
          method: "PUT",
          json: { why: "It runs." },
        }),
    ],
    [
      "the reviewer takes it back",
      201,
      async ({ over }) => {
        const {
          pairs: [pair],
        } = await studio.json<{ pairs: PairJson[] }>("visitor", `/recipes/${over}`);
        return review("reviewer", pair?.id ?? "", { verdict: "object", reasons: "It crawls." });
      },
    ],
  ])(
    "needs another look when %s, and another approval then answers %i",
    async (_, reviewed, undo) => {
      const pair = await newPair();
      const { tile, tests } = await bringEvidence(pair);
      await review("reviewer", pair.id);
      expect((await read(pair.id)).standing.is).toBe("approved");
      expect((await undo(pair, tile, tests[0] ?? "")).status).toBeLessThan(300);
      expect((await read(pair.id)).standing).toMatchObject({
        is: "needs another look",
        for: "decorative",
      });
      expect((await review("manager", pair.id)).status).toBe(reviewed);
    },
  );

  it("writes down who did what, and calls the pair by its glazes", async () => {
    const pair = await newPair();
    await review("reviewer", pair.id, { for: "decorative" });
    const events = await listEvents(studio.db, { subjectId: pair.id, limit: 10 });
    expect(events.map(({ kind }) => kind)).toEqual(["pair added", "pair approved"]);
    const record = await pageOf("/events", "manager");
    expect(record).toContain("put a layered pair on record:");
    expect(record).toMatch(/approved the pair[\s\S]*Slack Water \d+ over Slack Water \d+/);
  });

  it("knows no pair by nonsense", async () => {
    for (const id of ["7", "%00", "00000000-0000-7000-8000-000000000000"])
      expect((await studio.send("manager", `/pairs/${id}`)).status, id).toBe(404);
  });
});
