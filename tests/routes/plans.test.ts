import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { mixPlans } from "../../src/db/schema/index.ts";
import { planBatch } from "../buying.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Plan = {
  id: string;
  recipe: { slug: string };
  revision: number;
  baseGrams: string;
  note: string;
  end: { is: string; by: string } | null;
};

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const plansOf = async (who: Who) => (await studio.json<{ items: Plan[] }>(who, "/plans")).items;
const end = (id: string, is: string) =>
  studio.send("manager", `/plans/${id}/end`, { method: "PUT", json: { is } });

describe("planned batches", () => {
  it("stand in the order of their making, of the head where no revision is said", async () => {
    const slug = await publish(studio);
    await studio.send("author", `/recipes/${slug}/revisions`, {
      json: { basedOn: 1, ...revision({ message: "second" }) },
    });
    await studio.send("manager", "/plans", {
      json: { recipe: slug, revision: "1", grams: "3000", note: "For the class in June" },
    });
    await planBatch(studio, slug, "1500.5");
    expect(await plansOf("other member")).toMatchObject([
      { recipe: { slug }, revision: 1, baseGrams: "3000", note: "For the class in June" },
      { recipe: { slug }, revision: 2, baseGrams: "1500.5", note: "", end: null },
    ]);
    const page = await (await studio.send("author", "/plans")).text();
    expect(page).toContain("For the class in June");
    expect(page).not.toContain("It is mixed");
  });

  // By pencil, S assumed 2.65: 10 × 450 × 2.65/1.65 is 7227.3 g dry; 100/102 of it are 7085.5 g.
  it("are the base that fills so many litres", async () => {
    const json = { recipe: await publish(studio), fill: { litres: "10", specificGravity: "1.45" } };
    const answer = await studio.send("manager", "/plans", { json });
    expect(answer.status).toBe(201);
    expect(await answer.json()).toMatchObject({ baseGrams: "7085.6" });
  });

  it("need powder until they are ended, once", async () => {
    const id = await planBatch(studio, await publish(studio), "1000");
    expect((await end(id, "mixed")).status).toBe(200);
    expect((await end(id, "mixed")).status).toBe(200);
    expect((await end(id, "dropped")).status).toBe(409);
    expect((await plansOf("manager")).map((plan) => plan.id)).not.toContain(id);
    const said = (await listEvents(studio.db, { limit: 5000 })).filter(
      ({ subjectId }) => subjectId === id,
    );
    expect(said.map(({ kind }) => kind)).toEqual(["plan added", "plan ended"]);
    const record = await (await studio.send("manager", "/events?subject=plan")).text();
    expect(record).toContain("planned a batch of 1000 g of");
  });

  it("are ended by a button of the page", async () => {
    const id = await planBatch(studio, await publish(studio), "1000");
    const form = { is: "dropped" };
    const answer = await studio.send("manager", `/plans/${id}/end`, { form });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/plans"]);
    expect((await plansOf("manager")).map((plan) => plan.id)).not.toContain(id);
  });

  it("of a private recipe are not shown to who may not know of it", async () => {
    const slug = await publish(studio, { shownTo: "private" });
    const id = await planBatch(studio, slug, "1000");
    const seenBy = async (who: Who) => (await plansOf(who)).some((plan) => plan.id === id);
    expect([await seenBy("author"), await seenBy("other member")]).toEqual([true, false]);
    await end(id, "dropped");
  });

  it.each<[string, Record<string, unknown>, string]>([
    ["a recipe that is none", { recipe: "moon-dust", grams: "100" }, "recipe"],
    ["a revision that is none", { revision: "9", grams: "100" }, "revision"],
    ["no amount", {}, "grams"],
    ["an amount twice", { grams: "100", fill: { litres: "1", specificGravity: "1.4" } }, "fill"],
    ["a weight that the scale does not show", { grams: "100.05" }, "grams"],
    ["a slurry of water", { fill: { litres: "1", specificGravity: "1" } }, "fill.specificGravity"],
    ["an end", { grams: "100", end: "mixed" }, "end"],
  ])("refuse %s by its field, and keep nothing", async (_, given, path) => {
    const json = { recipe: await publish(studio), ...given };
    const before = await studio.db.$count(mixPlans);
    const answer = await studio.send("manager", "/plans", { json });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path }] });
    expect(await studio.db.$count(mixPlans)).toBe(before);
  });

  it("show the form again with what was typed in it", async () => {
    const form = { recipe: "moon-dust", grams: "a bucketful", note: "Soon" };
    const page = await (await studio.send("manager", "/plans", { form })).text();
    expect(page).toContain('value="a bucketful"');
    expect(page).toContain('value="Soon"');
  });
});
