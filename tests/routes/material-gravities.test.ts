import { Decimal } from "decimal.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { findMaterial } from "../../src/db/materials.ts";
import type { materialJson } from "../../src/routes/material-json.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Material = ReturnType<typeof materialJson>;

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const say = (who: Who, slug: string, json: object) =>
  studio.send(who, `/materials/${slug}/gravities`, { json });
const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();
const gravityOf = async (slug: string) =>
  (await studio.json<Material>("visitor", `/materials/${slug}`)).dryGravity;

describe("the dry gravity of a powder", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("answers the %s who says it with %i", async (who, status) => {
    const sent = { gravity: "5.24", source: `a handbook, table of ${who}` };
    const answer = await say(who, "red-iron-oxide", sent);
    expect(answer.status).toBe(status);
    const now = await gravityOf("red-iron-oxide");
    if (status !== 201) return expect(now).toBeNull();
    expect(now).toMatchObject({ ...sent, by: { name: "Ines Okafor" } });
    const material = await findMaterial(studio.db, "red-iron-oxide");
    const events = await listEvents(studio.db, { subjectId: material?.id, limit: 10 });
    expect(events.at(-1)).toMatchObject({ kind: "dry gravity added", detail: { gravity: "5.24" } });
    expect(await pageOf("manager", "/events?kind=dry+gravity+added")).toContain(
      "said that the dry gravity of",
    );
  });

  it("is 2.65 by assumption until somebody says, and the newest counts", async () => {
    expect(await pageOf("visitor", "/materials/whiting")).toContain("2.65 is assumed");
    for (const gravity of ["2.7", "2.71"])
      await say("manager", "whiting", { gravity, source: "x" });
    expect((await gravityOf("whiting"))?.gravity).toBe("2.71");
    const page = await pageOf("visitor", "/materials/whiting");
    expect(page).toContain("of 2.71. Source");
    expect(page).not.toContain("2.65 is assumed");
    expect(page).not.toContain("/gravities/new");
    expect(await pageOf("manager", "/materials/whiting")).toContain("/gravities/new");
  });

  it.each<[string, object, string]>([
    ["nothing", { source: "x" }, "gravity"],
    ["water", { gravity: "1", source: "x" }, "gravity"],
    ["metal", { gravity: "8.1", source: "x" }, "gravity"],
    ["finer than is kept", { gravity: "2.6511", source: "x" }, "gravity"],
    ["hearsay", { gravity: "2.65", source: " " }, "source"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const answer = await say("manager", "quartz", json);
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as { errors: unknown }).errors).toMatchObject([{ path }]);
    expect(await gravityOf("quartz")).toBeNull();
  });

  it("takes a form, once for a double tap, and shows it again with what was typed", async () => {
    const path = "/materials/kaolin/gravities";
    expect(await pageOf("manager", `${path}/new`)).toContain("Dry gravity of Kaolin");
    const blank = await studio.send("manager", path, { form: { gravity: "heavy", source: "me" } });
    expect(blank.status).toBe(422);
    expect(await blank.text()).toContain('value="heavy"');
    const form = { gravity: "2.61", source: "a handbook", idempotencyKey: "kaolin-gravity" };
    const both = await Promise.all([0, 1].map(() => studio.send("manager", path, { form })));
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    const material = await findMaterial(studio.db, "kaolin");
    const events = await listEvents(studio.db, { subjectId: material?.id, limit: 20 });
    expect(events.filter(({ kind }) => kind === "dry gravity added").length).toBe(1);
    expect((await say("manager", "moon-dust", form)).status).toBe(404);
  });
});

describe("what counts with dry gravities", () => {
  // By hand: 40 g of 2.65 (assumed), 20 of 2.7, 25 of 2.65 (assumed), 15 of 2.6, 2 of 5.2.
  const volume = 40 / 2.65 + 20 / 2.7 + 25 / 2.65 + 15 / 2.6 + 2 / 5.2;
  const dry = 102 / volume;
  let slug: string;
  beforeAll(async () => {
    slug = await publish(studio);
    for (const [powder, gravity] of [
      ["whiting", "2.7"],
      ["kaolin", "2.6"],
      ["red-iron-oxide", "5.2"],
    ] as const)
      await say("manager", powder, { gravity, source: "a handbook" });
  });

  it("reads a slurry by its recipe's powders, and says what it assumed", async () => {
    const json = { specificGravity: "1.45", recipe: slug };
    const answer = await studio.send("visitor", "/slurry", { json });
    const slurry = (await answer.json()) as Record<string, unknown>;
    expect(Number(slurry.drySpecificGravity)).toBeCloseTo(dry, 3);
    expect(slurry.dryGrams).toBeCloseTo((450 * dry) / (dry - 1), 6);
    expect(slurry.says).toContain("with 2.65 assumed of 2 of its 5 powders");
    const page = await studio.send("visitor", "/slurry", { form: json });
    expect(await page.text()).toContain(`value="${dry.toFixed(3)}"`);
    const none = await studio.send("visitor", "/slurry", { json: { ...json, recipe: "nothing" } });
    expect(none.status).toBe(404);
    expect(await none.json()).toMatchObject({ errors: [{ path: "recipe" }] });
  });

  it("keeps a private recipe's powders from a slurry of others", async () => {
    const own = await publish(studio, { shownTo: "private" });
    const json = { specificGravity: "1.45", recipe: own };
    expect((await studio.send("other member", "/slurry", { json })).status).toBe(404);
    expect((await studio.send("author", "/slurry", { json })).status).toBe(200);
  });

  it("fills a batch by its powders", async () => {
    const json = {
      recipe: slug,
      fill: { litres: "10", specificGravity: "1.45" },
      scaleGrams: "1",
    };
    const batch = (await (await studio.send("author", "/batch", { json })).json()) as {
      baseGrams: string;
      drySpecificGravity: string;
      says: string;
    };
    const base = (((4500 * dry) / (dry - 1)) * 100) / 102;
    expect(batch.baseGrams).toBe(new Decimal(base).toFixed(0));
    expect(Number(batch.drySpecificGravity)).toBeCloseTo(dry, 6);
    expect(batch.says).toContain("with 2.65 assumed of 2 of its 5 powders");
  });

  // By hand: at 1.45 a litre has 450 × s/(s − 1) g of each; half a litre of whiting (2.7) and half of
  // red iron oxide (5.2) are dry 714.7 : 557.1.
  it("blends slurries by what their powders weigh", async () => {
    const base = (material: string) => ({ lines: [{ material, part: "base", amount: "100" }] });
    const json = {
      kind: "line",
      corners: [base("whiting"), base("red-iron-oxide")],
      steps: 2,
      measure: "slurry volume",
      gravities: ["1.45", "1.45"],
    };
    const blend = (await (await studio.send("author", "/blends", { json })).json()) as {
      points: { lines: { amount: string }[] }[];
    };
    const [whiting, iron] = [2.7 / 1.7, 5.2 / 4.2];
    expect(Number(blend.points[1]?.lines[0]?.amount)).toBeCloseTo(
      (100 * whiting) / (whiting + iron),
      6,
    );
  });
});
