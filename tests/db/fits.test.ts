import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findBody } from "../../src/db/bodies.ts";
import type { DraftLine } from "../../src/db/drafts.ts";
import { listFits } from "../../src/db/fits.ts";
import { addTest, withdrawTest } from "../../src/db/test-adding.ts";
import { addTile, withdrawTile } from "../../src/db/tiles.ts";
import { putBody } from "../fired.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const at = new Date("2026-03-01T10:00:00Z");

type Body = { id: string; slug: string; name: string };
type Tile = Partial<Parameters<typeof addTile>[1]>;
type Outcome = "passed" | "failed" | "unclear";

describe("glazes that are recorded as fitting on a body", () => {
  let studio: TestStudio;
  let lines: DraftLine[];
  let named = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
    lines = await stockShelf(studio);
  });
  afterAll(() => studio.close());

  const act = () => ({ by: studio.ids.author, at });
  const reader = () => ({ id: studio.ids["other member"], role: "member" as const });
  const newBody = async (): Promise<Body> => {
    named += 1;
    const body = await findBody(studio.db, { slug: await putBody(studio, `Loft clay ${named}`) });
    if (!body) throw new Error("the body is not there");
    return body;
  };
  const newGlaze = (more: { shownTo?: "private" } = {}) => {
    named += 1;
    const own = lines.map((line, place) =>
      place === 0 ? { ...line, amount: line.amount.plus(named) } : line,
    );
    return publishGlaze(studio, { name: `Spindrift ${named}`, lines: own, ...more });
  };
  type Glaze = Awaited<ReturnType<typeof newGlaze>>;

  const fire = async ({ id: recipeId }: Glaze, body: Body | undefined, more: Tile = {}) => {
    const fired = { cone: "6", clay: "", firedOn: null, remark: "" } as const;
    const tile = { recipeId, number: 1, ...fired, body, ...more, ...act() };
    const added = await addTile(studio.db, tile);
    if (added.kind !== "added") throw new Error(added.kind);
    return added.id;
  };
  const shock = async ({ id: recipeId }: Glaze, tileId: string, outcome: Outcome = "passed") => {
    const said = { laboratory: "", articleClass: "", report: "", remark: "", results: [] };
    const test = {
      tileId,
      kind: "thermal shock",
      method: "Kettle and ice",
      outcome,
      ...said,
    } as const;
    const added = await addTest(studio.db, { recipeId, number: 1, test, ...act() });
    if (added.kind !== "added") throw new Error(added.kind);
    return added.id;
  };
  /** A glaze with a tile on the body that passed. */
  const fitting = async (body: Body, tile: Tile = {}, more: { shownTo?: "private" } = {}) => {
    const glaze = await newGlaze(more);
    const tileId = await fire(glaze, body, tile);
    return { glaze, tileId, testId: await shock(glaze, tileId) };
  };
  /** What is recorded as fitting on the body, beside a glaze of its own with a tile on it. */
  const fitOn = async (body: Body, who: Parameters<typeof listFits>[1]["reader"] = reader()) => {
    const glaze = await newGlaze();
    await fire(glaze, body);
    const { meltDigest } = glaze.revision;
    const fits = await listFits(studio.db, { meltDigest, reader: who });
    expect(fits.map((fit) => fit.body.slug)).toEqual([body.slug]);
    return fits[0]?.reference ?? null;
  };

  it("finds the glaze with a sound tile on the body and a passed thermal shock test of it", async () => {
    const body = await newBody();
    expect(await fitOn(body)).toBeNull();
    const { glaze, testId } = await fitting(body);
    const found = await fitOn(body);
    expect(found).toMatchObject({
      recipe: { slug: glaze.slug },
      number: 1,
      test: { id: testId, at },
    });
    expect(found?.expansion).toEqual(glaze.revision.chemistry.expansion);
  });

  it("takes the newest passed test, one a body", async () => {
    const body = await newBody();
    await fitting(body);
    const { glaze } = await fitting(body);
    expect((await fitOn(body))?.recipe.slug).toBe(glaze.slug);
  });

  it.each<[string, Tile]>([
    ["a crazed tile", { defects: ["crazing"] }],
    ["a shivered tile", { defects: ["running", "shivering"] }],
    ["a dunted tile", { defects: ["dunting"] }],
  ])("does not count %s", async (_, tile) => {
    const body = await newBody();
    await fitting(body, tile);
    expect(await fitOn(body)).toBeNull();
  });

  it("counts a tile with a defect that is not one of fit", async () => {
    const body = await newBody();
    await fitting(body, { defects: ["pinholing"] });
    expect(await fitOn(body)).not.toBeNull();
  });

  it("does not count a layered tile", async () => {
    const body = await newBody();
    const beneath = await newGlaze();
    await fitting(body, { overId: beneath.revision.id });
    expect(await fitOn(body)).toBeNull();
  });

  it("does not count a test that failed, was unclear, or is of another kind or tile", async () => {
    const body = await newBody();
    const glaze = await newGlaze();
    await shock(glaze, await fire(glaze, body), "failed");
    await shock(glaze, await fire(glaze, body), "unclear");
    await shock(glaze, await fire(glaze, undefined));
    expect(await fitOn(body)).toBeNull();
  });

  it("does not count a tile that passed once and failed another time", async () => {
    const body = await newBody();
    const { glaze, tileId } = await fitting(body);
    const failed = await shock(glaze, tileId, "failed");
    expect(await fitOn(body)).toBeNull();
    await withdrawTest(studio.db, { testId: failed, why: "Another tile", ...act() });
    expect(await fitOn(body)).not.toBeNull();
  });

  it("forgets a glaze whose tile or test was withdrawn", async () => {
    const [one, other] = [await newBody(), await newBody()];
    const { tileId } = await fitting(one);
    const { testId } = await fitting(other);
    expect(await fitOn(one)).not.toBeNull();
    expect(await fitOn(other)).not.toBeNull();
    await withdrawTile(studio.db, { tileId, why: "Wrong", ...act() });
    await withdrawTest(studio.db, { testId, why: "Wrong", ...act() });
    expect(await fitOn(one)).toBeNull();
    expect(await fitOn(other)).toBeNull();
  });

  it("never holds a glaze against its own melt", async () => {
    const body = await newBody();
    const { glaze } = await fitting(body);
    const { meltDigest } = glaze.revision;
    expect(await listFits(studio.db, { meltDigest, reader: reader() })).toEqual([
      { body: { slug: body.slug, name: body.name }, reference: null },
    ]);
  });

  it("does not let on what fits where that is private", async () => {
    const body = await newBody();
    await fitting(body, {}, { shownTo: "private" });
    expect(await fitOn(body)).toBeNull();
    expect(await fitOn(body, undefined)).toBeNull();
    expect(await fitOn(body, { id: studio.ids.author, role: "member" })).not.toBeNull();
  });

  it("tells of every body where the melt has no tile on any", async () => {
    const { meltDigest } = (await newGlaze()).revision;
    const fits = await listFits(studio.db, { meltDigest, reader: reader() });
    expect(fits.length).toBeGreaterThan(10);
    expect(fits.filter(({ reference }) => reference !== null).length).toBeGreaterThan(1);
  });

  it("says on the page and in JSON by how much, in which model, and that only a test tells", async () => {
    const body = await newBody();
    const { glaze: reference } = await fitting(body);
    const glaze = await newGlaze();
    const tile = await fire(glaze, body);
    const read = () =>
      studio.send("visitor", `/recipes/${glaze.slug}`).then((answer) => answer.text());
    const page = await read();
    expect(page).toContain(`/recipes/${reference.slug}/revisions/1`);
    expect(page).toContain("recorded as fitting");
    expect(page).toContain("No thermal shock test of this glaze is on record.");
    expect(page).not.toContain("No reference on");
    await shock(glaze, tile, "failed");
    expect(await read()).toContain("thermal shock test</a>: failed");
    const { fits } = await studio.json<{ fits: { beside: { model: string; by: object }[] }[] }>(
      "visitor",
      `/recipes/${glaze.slug}`,
    );
    const answering = glaze.revision.chemistry.expansion.filter(({ value }) => value !== null);
    expect(fits[0]?.beside.map(({ model }) => model)).toEqual(answering.map(({ model }) => model));
    const lone = await newGlaze();
    const bare = await newBody();
    await fire(lone, bare);
    const empty = await (await studio.send("visitor", `/recipes/${lone.slug}`)).text();
    expect(empty).toContain(`No reference on ${bare.name} yet.`);
  });

  it("keeps its plain sentence where there is no tile", async () => {
    const form = {
      "lines.0.material": "Potash feldspar",
      "lines.0.amount": "100",
      "lines.0.part": "base",
    };
    const page = await (await studio.send("visitor", "/chemistry", { form })).text();
    expect(page).toContain("No reference on this body yet");
  });
});
