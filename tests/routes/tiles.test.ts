import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { DraftLine } from "../../src/db/drafts.ts";
import { listEvents } from "../../src/db/events.ts";
import { tiles as stored } from "../../src/db/schema/index.ts";
import type { tileJson } from "../../src/routes/tiles.ts";
import { putBody, putFiring } from "../fired.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type TileJson = ReturnType<typeof tileJson>;

describe("the tiles of a recipe", () => {
  let studio: TestStudio;
  let lines: DraftLine[];
  let named = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
    lines = await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const newGlaze = (more: { shownTo?: "private" } = {}) => {
    named += 1;
    return publishGlaze(studio, { name: `Tide ${named}`, lines, ...more });
  };
  const fired = { revision: 1, cone: "6" };
  const add = async (who: Who, slug: string, json: object = fired) => {
    const answer = await studio.send(who, `/recipes/${slug}/tiles`, { json });
    return {
      answer,
      tile: (await answer.json()) as TileJson & { detail: string; errors: unknown },
    };
  };
  const countTiles = () => studio.db.$count(stored);

  it.each<[Who, number]>([
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
    ["visitor", 401],
  ])(
    "lets whoever of the studio may read the recipe put a tile on record: %s %i",
    async (who, status) => {
      const { slug } = await newGlaze();
      const { answer, tile } = await add(who, slug);
      expect(answer.status).toBe(status);
      if (status !== 201) return;
      expect(answer.headers.get("location")).toBe(`/recipes/${slug}`);
      expect(await studio.json("visitor", `/tiles/${tile.id}`)).toMatchObject(tile);
      expect(tile).toMatchObject({ revision: 1, cone: "6", atmosphere: "oxidation", photos: [] });
    },
  );

  it("does not let on that a private recipe is there", async () => {
    const { slug } = await newGlaze({ shownTo: "private" });
    const { answer, tile } = await add("author", slug);
    expect(answer.status).toBe(201);
    expect((await add("other member", slug)).answer.status).toBe(404);
    for (const who of ["other member", "visitor"] as const) {
      expect((await studio.send(who, `/tiles/${tile.id}`)).status).toBe(404);
    }
    const form = await studio.send("other member", `/recipes/${slug}/tiles/new`);
    expect(form.status).toBe(404);
    const withdrawal = { method: "PUT", json: { why: "Mine now" } };
    const path = `/tiles/${tile.id}/withdrawal`;
    expect((await studio.send("other member", path, withdrawal)).status).toBe(404);
    expect((await studio.send("author", `/tiles/${tile.id}`)).status).toBe(200);
  });

  it("takes a form and goes on to the tile's page", async () => {
    const { slug } = await newGlaze();
    const form = {
      revision: "1",
      cone: "04",
      atmosphere: "",
      clay: "Heron porcelain",
      firedOn: "2026-02-27",
      remark: "Crawled <b>at</b> the edge",
      idempotencyKey: "k1",
    };
    const answer = await studio.send("other member", `/recipes/${slug}/tiles`, { form });
    expect(answer.status).toBe(303);
    const location = answer.headers.get("location") ?? "";
    expect(location).toMatch(/^\/tiles\/[0-9a-f-]{36}$/);
    const page = await (await studio.send("other member", location)).text();
    expect(page).toContain("Cone 04 (about 1063 °C at 60 °C an hour");
    expect(page).toContain("the revision claims cones 5 to 6");
    expect(page).toContain("Heron porcelain");
    expect(page).toContain("27 February 2026");
    expect(page).toContain("Crawled &lt;b&gt;at&lt;/b&gt; the edge");
  });

  it("makes one tile of a double tap", async () => {
    const { slug } = await newGlaze();
    const form = { revision: "1", cone: "6", idempotencyKey: "one and the same" };
    const path = `/recipes/${slug}/tiles`;
    const both = await Promise.all([0, 1].map(() => studio.send("author", path, { form })));
    const [one, other] = both.map((answer) => answer.headers.get("location"));
    expect(one).toBeTruthy();
    expect(other).toBe(one);
  });

  it.each<[string, object, string]>([
    ["no cone", { revision: 1 }, "cone"],
    ["a cone as a number", { revision: 1, cone: 6 }, "cone"],
    ["a cone with a zero too many", { revision: 1, cone: "006" }, "cone"],
    ["a revision that is not there", { revision: 2, cone: "6" }, "revision"],
    ["a revision that is no number", { revision: "head", cone: "6" }, "revision"],
    ["an atmosphere that no kiln has", { ...fired, atmosphere: "vacuum" }, "atmosphere"],
    ["a day that is none", { ...fired, firedOn: "2026-02-30" }, "firedOn"],
    ["a day before there were dates", { ...fired, firedOn: "0000-01-01" }, "firedOn"],
    ["a day to come", { ...fired, firedOn: "2999-01-01" }, "firedOn"],
    ["a clay too long to read", { ...fired, clay: "x".repeat(81) }, "clay"],
    ["a field that is none", { ...fired, glazeThickness: 1 }, "glazeThickness"],
  ])("refuses %s, by its field, and keeps nothing", async (_, json, path) => {
    const { slug } = await newGlaze();
    const before = await countTiles();
    const { answer, tile } = await add("author", slug, json);
    expect(answer.status).toBe(422);
    expect(answer.headers.get("content-type")).toContain("application/problem+json");
    expect(tile.errors).toMatchObject([{ path }]);
    expect(await countTiles()).toBe(before);
  });

  it("shows the form again with what was typed in it", async () => {
    const { slug } = await newGlaze();
    const form = { revision: "1", cone: "", clay: "Loft stoneware", remark: "Ran" };
    const answer = await studio.send("author", `/recipes/${slug}/tiles`, { form });
    const page = await answer.text();
    expect(answer.status).toBe(422);
    expect(page).toContain('href="#field-cone"');
    expect(page).toContain('value="Loft stoneware"');
    expect(page).toMatch(/<textarea[^>]*>Ran<\/textarea>/);
  });

  it("opens the form on the revision that was asked for, and knows no other", async () => {
    const { slug } = await newGlaze();
    const form = await studio.send("other member", `/recipes/${slug}/tiles/new?revision=1`);
    expect(await form.text()).toContain("Revision 1 claims cones 5 to 6");
    for (const revision of ["2", "0", "x"]) {
      const path = `/recipes/${slug}/tiles/new?revision=${revision}`;
      expect((await studio.send("other member", path)).status, revision).toBe(404);
    }
    expect((await studio.send("visitor", `/recipes/${slug}/tiles/new`)).status).toBe(401);
  });

  it.each<[Who, number]>([
    ["author", 200],
    ["other member", 200],
    ["manager", 200],
    ["reviewer", 403],
    ["visitor", 401],
  ])(
    "lets who added a tile, the recipe's owner and managers withdraw it: %s %i",
    async (who, status) => {
      const { slug } = await newGlaze();
      const { tile } = await add("other member", slug);
      const path = `/tiles/${tile.id}/withdrawal`;
      const sent = { method: "PUT", json: { why: "It was another glaze." } };
      const answer = await studio.send(who, path, sent);
      expect(answer.status).toBe(status);
      const { withdrawn } = await studio.json<TileJson>("visitor", `/tiles/${tile.id}`);
      expect(withdrawn?.why).toBe(status === 200 ? "It was another glaze." : undefined);
    },
  );

  it("withdraws once, in words, and never takes the tile away", async () => {
    const { slug } = await newGlaze();
    const { tile } = await add("author", slug);
    const path = `/tiles/${tile.id}/withdrawal`;
    const blank = await studio.send("author", path, { form: { why: "" } });
    expect(blank.status).toBe(422);
    expect(await blank.text()).toContain('href="#field-why"');

    const form = { why: "Wrong bucket." };
    const first = await studio.send("author", path, { form });
    expect([first.status, first.headers.get("location")]).toEqual([303, `/tiles/${tile.id}`]);
    const second = await studio.send("manager", path, { form: { why: "Again." } });
    expect(second.status).toBe(409);
    expect(await second.text()).toContain("withdrawn before, and that stands: Wrong bucket.");
    expect(await studio.json("visitor", `/tiles/${tile.id}`)).toMatchObject({
      id: tile.id,
      withdrawn: { why: "Wrong bucket.", by: "Rukmini Vale" },
    });
    const events = await listEvents(studio.db, { subjectId: tile.id, limit: 10 });
    expect(events.map(({ kind }) => kind)).toEqual(["tile added", "tile withdrawn"]);
  });

  it("offers only what the reader may do", async () => {
    const { slug } = await newGlaze();
    const { tile } = await add("other member", slug);
    const seenBy = async (who: Who) => (await studio.send(who, `/tiles/${tile.id}`)).text();
    expect(await seenBy("other member")).toContain(`action="/tiles/${tile.id}/photos"`);
    expect(await seenBy("other member")).toContain(`action="/tiles/${tile.id}/withdrawal"`);
    for (const who of ["reviewer", "visitor"] as const) {
      expect(await seenBy(who), who).not.toContain("<form");
    }
  });

  it("hangs the tiles of a melt on its recipe's page and in its JSON", async () => {
    const own = lines.slice(0, 3);
    const glaze = await publishGlaze(studio, { name: "Mackerel Sky", lines: own });
    const twin = await publishGlaze(studio, { name: "Mackerel Twin", lines: own });
    const empty = await (await studio.send("visitor", `/recipes/${glaze.slug}`)).text();
    expect(empty).toContain("No tile of this melt has been fired yet");
    expect(empty).not.toContain("/tiles/new");

    const { tile: first } = await add("author", glaze.slug, { ...fired, remark: "Broke brown" });
    const { tile: same } = await add("author", twin.slug);
    await studio.send("author", `/tiles/${same.id}/withdrawal`, { json: { why: "Wrong bucket." } });
    const page = await (await studio.send("other member", `/recipes/${glaze.slug}`)).text();
    const gallery = page.slice(
      page.indexOf('id="tiles"'),
      page.indexOf("Add a tile of revision 1"),
    );
    expect(gallery.match(/Cone 6 \(about 1222 °C at 60 °C an hour/g)).toHaveLength(1);
    expect(gallery).toMatch(/<s><a href="[^"]+">Cone 6<\/a>, oxidation<\/s>/);
    expect(gallery).toContain("Wrong bucket.");
    expect(gallery).toContain("Mackerel Twin, revision 1</a>, which is the same melt.");
    expect(page).toContain(`href="/recipes/${glaze.slug}/tiles/new?revision=1"`);

    const { tiles } = await studio.json<{ tiles: TileJson[] }>("visitor", `/recipes/${glaze.slug}`);
    expect(tiles.map(({ id, withdrawn }) => [id, withdrawn?.why])).toEqual([
      [first.id, undefined],
      [same.id, "Wrong bucket."],
    ]);
  });

  describe("with the body, the firing and what came out", () => {
    let body: string;
    let firing: string;
    let bisque: string;
    beforeAll(async () => {
      body = await putBody(studio);
      firing = await putFiring(studio);
      bisque = await putFiring(studio, "bisque");
    });

    it("keeps all of it, and takes atmosphere, day and clay from what is on record", async () => {
      const { slug } = await newGlaze();
      const { answer, tile } = await add("author", slug, {
        ...fired,
        body,
        firing,
        bisqueCone: "06",
        thicknessMm: "0.80",
        place: "top shelf",
        outcome: { surface: "satin" },
        defects: ["running", "pinholing", "running"],
      });
      expect(answer.status).toBe(201);
      expect(tile).toMatchObject({
        atmosphere: "oxidation",
        firedOn: "2026-02-21",
        clay: "Loft stoneware",
        body: { slug: "loft-stoneware", name: "Loft stoneware" },
        firing: {
          id: firing,
          startedAt: "2026-02-21T07:30:00.000Z",
          witness: [
            { cone: "6", bendDegrees: 90, place: "top shelf" },
            { cone: "7", bendDegrees: 20, place: "" },
          ],
        },
        bisqueCone: "06",
        thicknessMm: "0.8",
        place: "top shelf",
        outcome: { surface: "satin" },
        defects: ["running", "pinholing"],
        over: null,
        layered: false,
      });
      const page = await (await studio.send("visitor", `/tiles/${tile.id}`)).text();
      expect(page).toContain('href="/bodies/loft-stoneware"');
      expect(page).toContain(`href="/firings/${firing}"`);
      expect(page).toContain("Cone 6 bent 90°: down, top shelf");
      expect(page).toContain("Cone 7 bent 20°: still up");
      expect(page).toContain("<strong>Pinholing.</strong>");
      const gallery = await (await studio.send("visitor", `/recipes/${slug}`)).text();
      expect(gallery).toContain(", oxidation, on Loft stoneware, witness cone 6<");
      expect(gallery).toContain("Shows running, pinholing.");
    });

    it("takes the same from a form, ticked boxes one or many", async () => {
      const { slug } = await newGlaze();
      const send = async (boxes: string[]) => {
        const form = new FormData();
        const typed = { revision: "1", cone: "6", body, firing, atmosphere: "", clay: "" };
        const more = { thicknessMm: "1.2", "outcome.surface": "gloss", over: "", firedOn: "" };
        for (const [name, value] of Object.entries({ ...typed, ...more })) form.set(name, value);
        for (const box of boxes) form.append("defects", box);
        const answer = await studio.send("author", `/recipes/${slug}/tiles`, { form });
        expect(answer.status).toBe(303);
        return studio.json<TileJson>("visitor", answer.headers.get("location") ?? "");
      };
      expect(await send(["crazing"])).toMatchObject({
        defects: ["crazing"],
        thicknessMm: "1.2",
        outcome: { surface: "gloss" },
        body: { slug: body },
      });
      expect((await send(["crazing", "crawling"])).defects).toEqual(["crazing", "crawling"]);
      expect((await send([])).defects).toEqual([]);
    });

    it.each<[string, () => object, string]>([
      ["a body that is none", () => ({ body: "loft-bone" }), "body"],
      ["a firing that is none", () => ({ firing: "7" }), "firing"],
      ["a bisque firing", () => ({ firing: bisque }), "firing"],
      [
        "an atmosphere that the firing was not",
        () => ({ firing, atmosphere: "reduction" }),
        "atmosphere",
      ],
      ["a day that the firing was not", () => ({ firing, firedOn: "2026-02-20" }), "firedOn"],
      ["a clay that the body is not", () => ({ body, clay: "Heron porcelain" }), "clay"],
      ["a bisque cone that is none", () => ({ bisqueCone: "6.5" }), "bisqueCone"],
      ["no thickness at all", () => ({ thicknessMm: "0" }), "thicknessMm"],
      ["a coat thicker than a tile", () => ({ thicknessMm: "20.01" }), "thicknessMm"],
      ["thickness as a word", () => ({ thicknessMm: "thin" }), "thicknessMm"],
      ["thickness finer than anybody measures", () => ({ thicknessMm: "0.801" }), "thicknessMm"],
      ["a defect that is none", () => ({ defects: ["ugly"] }), "defects"],
      ["what it lies over without a revision", () => ({ over: "slack-water" }), "over"],
      ["what it lies over that is not there", () => ({ over: "no-such@1" }), "over"],
      [
        "a surface too long to read",
        () => ({ outcome: { surface: "x".repeat(61) } }),
        "outcome.surface",
      ],
      ["an outcome that is none", () => ({ outcome: { gloss: 1 } }), "outcome.gloss"],
    ])("refuses %s, by its field, and keeps nothing", async (_, more, path) => {
      const { slug } = await newGlaze();
      const before = await countTiles();
      const { answer, tile } = await add("author", slug, { ...fired, ...more() });
      expect(answer.status).toBe(422);
      expect(tile.errors).toMatchObject([{ path }]);
      expect(await countTiles()).toBe(before);
    });

    it("takes what agrees with the firing and the body", async () => {
      const { slug } = await newGlaze();
      const said = { atmosphere: "oxidation", firedOn: "2026-02-21", clay: "Loft stoneware" };
      expect((await add("author", slug, { ...fired, body, firing, ...said })).answer.status).toBe(
        201,
      );
    });

    it("lets a layered tile speak for the pair alone", async () => {
      const beneath = await newGlaze();
      const glaze = await publishGlaze(studio, { name: "Over it", lines: lines.slice(1) });
      const { answer, tile } = await add("author", glaze.slug, {
        ...fired,
        over: `${beneath.slug}@1`,
      });
      expect(answer.status).toBe(201);
      expect(tile).toMatchObject({ over: `${beneath.slug}@1`, layered: true });
      const page = await (await studio.send("visitor", `/recipes/${glaze.slug}`)).text();
      expect(page).toContain("counts for neither glaze alone");
      const { items } = await studio.json<{ items: { slug: string; tested: string[] }[] }>(
        "visitor",
        "/recipes?q=Over",
      );
      expect(JSON.stringify(items.find(({ slug }) => slug === glaze.slug))).not.toContain('["6"]');
    });

    it("does not let on what a tile lies over where that is private", async () => {
      const hidden = await newGlaze({ shownTo: "private" });
      const { slug } = await newGlaze();
      const over = `${hidden.slug}@1`;
      const others = await add("other member", slug, { ...fired, over });
      expect(others.answer.status).toBe(422);
      expect(others.tile.errors).toMatchObject([{ path: "over" }]);
      const { tile } = await add("author", slug, { ...fired, over });
      expect(tile.over).toBe(over);
      const seen = await studio.json<TileJson>("visitor", `/tiles/${tile.id}`);
      expect([seen.over, seen.layered]).toEqual([null, true]);
      const page = await (await studio.send("visitor", `/tiles/${tile.id}`)).text();
      expect(page).toContain("a glaze that is not shown to you");
      expect(page).not.toContain(hidden.slug);
    });

    it("offers bodies, glaze firings and defects to choose from, and keeps what was chosen", async () => {
      const { slug } = await newGlaze();
      const form = { revision: "1", cone: "", body, firing, defects: "crazing", thicknessMm: "x" };
      const answer = await studio.send("author", `/recipes/${slug}/tiles`, { form });
      const page = await answer.text();
      expect(answer.status).toBe(422);
      expect(page).toMatch(new RegExp(`value="${body}" selected`));
      expect(page).toMatch(new RegExp(`value="${firing}" selected`));
      expect(page).toMatch(/value="crazing" checked/);
      expect(page).toContain('value="x"');
      expect(page).not.toContain(bisque);
      expect(page).toContain("shrinks more than the body");
    });
  });

  it("knows no tile by nonsense", async () => {
    for (const id of ["7", "%00", "00000000-0000-7000-8000-000000000000"]) {
      expect((await studio.send("manager", `/tiles/${id}`)).status, id).toBe(404);
      const withdrawal = await studio.send("manager", `/tiles/${id}/withdrawal`, {
        json: { why: "x" },
      });
      expect(withdrawal.status, id).toBe(404);
    }
  });

  it("tells of all its calls in the description", async () => {
    const { paths } = await studio.json<{ paths: Record<string, object> }>(
      "visitor",
      "/openapi.json",
    );
    expect(Object.keys(paths["/recipes/{slug}/tiles"] ?? {})).toEqual(["post"]);
    expect(Object.keys(paths["/tiles/{id}/withdrawal"] ?? {}).sort()).toEqual(["post", "put"]);
    expect(Object.keys(paths["/photos/{sha256}/{width}"] ?? {})).toEqual(["get"]);
  });
});
