import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { tileJson } from "../../src/routes/tiles.ts";
import { fireTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type TileJson = ReturnType<typeof tileJson> & { errors?: { path: string; says: string }[] };

describe("how a tile was made", () => {
  let studio: TestStudio;
  let slug: string;
  let bucket: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
    bucket = await bucketOf(slug);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const bucketOf = async (recipe: string): Promise<string> => {
    const json = { recipe, revision: 1, name: "Tall grey bucket", litres: "20", test: true };
    return ((await (await studio.send("manager", "/buckets", { json })).json()) as { id: string })
      .id;
  };
  const add = async (json: object) => {
    const sent = { revision: 1, cone: "6", ...json };
    const answer = await studio.send("author", `/recipes/${slug}/tiles`, { json: sent });
    return { status: answer.status, tile: (await answer.json()) as TileJson };
  };
  const full = () => ({
    outcome: { surface: "satin", transparency: "translucent", movement: "moves a little" },
    application: "dipped",
    seconds: "2.5",
    coats: 2,
    specificGravity: "1.45",
    beside: "a chrome green",
    bucket,
  });

  it("is kept and told as it was sent, all of it optional", async () => {
    const { tile } = await add(full());
    const named = { id: bucket, name: "Tall grey bucket" };
    expect(await studio.json("author", `/tiles/${tile.id}`)).toMatchObject({
      ...full(),
      bucket: named,
    });
    const { tile: bare } = await add({});
    expect(bare).toMatchObject({
      outcome: { surface: "", transparency: null, movement: null },
      application: null,
      seconds: null,
      coats: null,
      specificGravity: null,
      beside: "",
      bucket: null,
    });
  });

  it("stands on the tile's page", async () => {
    const { tile } = await add(full());
    const page = await (await studio.send("author", `/tiles/${tile.id}`)).text();
    expect(page).toContain("dipped, 2.5 seconds, 2 coats, from a slurry of specific gravity 1.45");
    expect(page).toContain("a chrome green");
    expect(page).toContain("moves a little");
    expect(page).toContain(`href="/buckets/${bucket}"`);
    expect(await (await studio.send("visitor", `/tiles/${tile.id}`)).text()).not.toContain(bucket);
  });

  it("comes from a form as well, which offers the buckets of that melt", async () => {
    const form = {
      ...{ revision: "1", cone: "6", "outcome.transparency": "opaque", "outcome.movement": "runs" },
      ...{ application: "sprayed", seconds: "", coats: "3", bucket },
    };
    const answer = await studio.send("author", `/recipes/${slug}/tiles`, { form });
    expect(answer.status).toBe(303);
    expect(await studio.json("author", answer.headers.get("location") ?? "")).toMatchObject({
      outcome: { transparency: "opaque", movement: "runs" },
      application: "sprayed",
      seconds: null,
      coats: 3,
      bucket: { id: bucket },
    });
    const page = await (await studio.send("author", `/recipes/${slug}/tiles/new`)).text();
    expect(page).toContain(`<option value="${bucket}">Tall grey bucket</option>`);
  });

  it("keeps the fold open over what is wrong in it", async () => {
    const form = { revision: "1", cone: "6", coats: "many" };
    const answer = await studio.send("author", `/recipes/${slug}/tiles`, { form });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toMatch(/<details open[^>]*><summary>How it was put on/);
    expect(page).toContain('value="many"');
  });

  it.each<[object, string]>([
    [{ outcome: { transparency: "cloudy" } }, "outcome.transparency"],
    [{ outcome: { movement: "falls" } }, "outcome.movement"],
    [{ application: "trailed" }, "application"],
    [{ seconds: 0 }, "seconds"],
    [{ seconds: "601" }, "seconds"],
    [{ seconds: "2.55" }, "seconds"],
    [{ coats: 0 }, "coats"],
    [{ coats: "1.5" }, "coats"],
    [{ specificGravity: "145" }, "specificGravity"],
    [{ specificGravity: "0.9" }, "specificGravity"],
    [{ beside: "x".repeat(301) }, "beside"],
    [{ bucket: "the grey one" }, "bucket"],
    [{ bucket: "0199b2c0-0000-7000-8000-000000000000" }, "bucket"],
  ])("refuses %j by its field", async (wrong, path) => {
    const { status, tile } = await add(wrong);
    expect(status).toBe(422);
    expect(tile.errors).toMatchObject([{ path }]);
  });

  it("proves a bucket of its own melt only, and only by itself", async () => {
    const other = await publish(studio, {
      lines: [
        ["quartz", "40"],
        ["potash-feldspar", "60"],
      ],
    });
    const foreign = await add({ bucket: await bucketOf(other) });
    expect(foreign.status).toBe(422);
    expect(foreign.tile.errors).toMatchObject([{ path: "bucket" }]);
    const layered = await add({ bucket, over: `${other}@1` });
    expect(layered.status).toBe(422);
    expect(layered.tile.errors).toMatchObject([{ path: "bucket" }]);
    // The same lines are the same melt, whatever the recipe is called.
    const twin = await publish(studio);
    expect(await fireTile(studio, twin, { bucket })).toBeTruthy();
  });
});
