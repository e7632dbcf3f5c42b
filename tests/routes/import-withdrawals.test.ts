import { desc } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { matchMaterials } from "../../src/db/material-matching.ts";
import { events } from "../../src/db/schema/index.ts";
import { type Import, inFrame, planOf, recipeInFile, takeIn } from "../imports.ts";
import { revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("taking an import back", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  let ash = 0;
  /** A recipe with a powder of its own, which has two analyses. */
  const taken = async () => {
    ash += 1;
    const name = `Loft ash ${ash}`;
    const powder = {
      name,
      formula: "CaCO3",
      analyses: [{ source: "Sheet", oxides: { CaO: { percent: 50 + ash } } }],
    };
    const lines = [
      { part: "base", material: name, amount: "50" },
      { part: "base", material: "Kaolin", amount: "50" },
    ];
    const file = inFrame({ materials: [powder], recipes: [recipeInFile({}, lines)] });
    return { name, file, brought: await takeIn(studio, file, { matches: { [name]: "new" } }) };
  };
  const takeBack = (id: string, json: unknown = { why: "The wrong file." }) =>
    studio.send("manager", `/imports/${id}/withdrawal`, { method: "PUT", json });

  it("withdraws its recipes and ends the offer of its powders, by one event", async () => {
    const { name, brought } = await taken();
    const slug = brought.recipes[0]?.slug;
    const before = await studio.db.$count(events);
    const answer = await takeBack(brought.id);
    expect(answer.status).toBe(200);
    expect(await answer.json()).toMatchObject({
      takenBack: { why: "The wrong file.", by: "Ines Okafor" },
      recipes: [{ slug, withdrawn: true }],
      materials: [{ offered: false }],
    });
    expect(await studio.db.$count(events)).toBe(before + 1);
    const [last] = await studio.db.select().from(events).orderBy(desc(events.seq)).limit(1);
    expect(last).toMatchObject({ kind: "import withdrawn", subjectId: brought.id });

    expect(await studio.json("manager", `/recipes/${slug}`)).toMatchObject({
      standing: { is: "withdrawn", because: ["The wrong file."] },
    });
    const { items } = await studio.json<{ items: { says: string; why: string }[] }>(
      "author",
      `/recipes/${slug}/history`,
    );
    expect(items.at(-1)).toMatchObject({
      says: "withdrew it with the import that brought it",
      why: "The wrong file.",
    });
    // Still on record under its address, and offered to nobody.
    const { slug: material } = brought.materials[0] ?? { slug: "" };
    await studio.json("author", `/materials/${material}`);
    const shelf = await studio.json<{ items: { name: string }[] }>("author", "/materials");
    expect(shelf.items.map((each) => each.name)).not.toContain(name);
    const matched = await matchMaterials(studio.db, [name, material]);
    expect([...matched.values()].map(({ kind }) => kind)).not.toContain("sure");
    expect((await takeBack(brought.id)).status).toBe(409);
  });

  it("never lets its analyses be put in use from then on", async () => {
    const { brought } = await taken();
    const waiting = brought.analyses.find(({ inUse }) => !inUse);
    await takeBack(brought.id);
    const answer = await studio.send("manager", `/materials/${waiting?.slug}/analysis-in-use`, {
      method: "PUT",
      json: { analysis: waiting?.id, why: "It is better." },
    });
    expect(answer.status).toBe(422);
    expect(JSON.stringify(await answer.json())).toContain("import that was taken back");
  });

  it("asks about what somebody went on with, and leaves it or takes it along", async () => {
    for (const anyway of [false, true]) {
      const { brought, name } = await taken();
      const { slug = "" } = brought.recipes[0] ?? {};
      const line = [[brought.materials[0]?.slug ?? "", "60"]] as [string, string][];
      await studio.send("manager", `/recipes/${slug}/revisions`, {
        json: { basedOn: 1, ...revision({ message: "More ash" }, line) },
      });
      const before = await studio.db.$count(events);
      const asked = await takeBack(brought.id);
      expect(asked.status).toBe(409);
      expect(await asked.json()).toMatchObject({
        errors: [{ path: "anyway" }],
        recipes: [{ slug, since: ["revised"] }],
      });
      expect(await studio.db.$count(events)).toBe(before);
      const answer = await takeBack(brought.id, { why: "The wrong file.", anyway });
      const after = (await answer.json()) as Import;
      expect(after.recipes[0]?.withdrawn).toBe(anyway);
      // A powder that a recipe still stands on stays on the shelf.
      expect(after.materials[0]?.offered).toBe(!anyway);
      const kinds = [...(await matchMaterials(studio.db, [name])).values()];
      expect(kinds.map(({ kind }) => kind === "sure")).toEqual([!anyway]);
    }
  });

  it("lets the same file be taken in again, and its powder be chosen again", async () => {
    const { name, file, brought } = await taken();
    await takeBack(brought.id);
    const plan = await planOf(studio, file);
    expect(plan.takenInBefore).toMatchObject([{ id: brought.id, takenBack: true }]);
    expect(plan.names[0]).toMatchObject({ name, is: null, possible: [{ takenBack: true }] });
    const slug = brought.materials[0]?.slug ?? "";
    const again = await takeIn(studio, file, { matches: { [name]: slug }, again: true });
    expect(again.recipes).toHaveLength(1);
    const [now] = [...(await matchMaterials(studio.db, [name])).values()];
    expect(now?.kind).toBe("sure");
  });

  it("keeps what was typed on the page", async () => {
    const { brought } = await taken();
    const page = await studio.send("manager", `/imports/${brought.id}/withdrawal`, {
      form: { why: "" },
    });
    expect(page.status).toBe(422);
    expect(await page.text()).toContain("Take the import back");
    const done = await studio.send("manager", `/imports/${brought.id}/withdrawal`, {
      form: { why: "Twice." },
    });
    expect(done.status).toBe(303);
  });
});
