import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Named = { names: { id: string; name: string; region: string; caution: string }[] };

describe("names of a material", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  let made = 0;
  const shelve = async () => {
    made += 1;
    const name = `Powder ${made}`;
    await studio.send("manager", "/materials", { json: { name } });
    return `/materials/powder-${made}`;
  };
  const flint = { name: "Flint", region: "the United Kingdom", caution: "Buy it calcined." };

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who adds one with %i", async (who, status) => {
    const path = await shelve();
    const answer = await studio.send(who, `${path}/names`, { json: flint });
    expect(answer.status).toBe(status);
    const { names } = await studio.json<Named>("visitor", path);
    expect(names).toEqual(status === 201 ? [{ id: expect.any(String), ...flint }] : []);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s who removes one with %i", async (who, status) => {
    const path = await shelve();
    await studio.send("author", `${path}/names`, { json: flint });
    const [name] = (await studio.json<Named>("visitor", path)).names;
    const answer = await studio.send(who, `${path}/names/${name?.id}`, {
      method: "DELETE",
      accept: "application/json",
    });
    expect(answer.status).toBe(status);
    const { names } = await studio.json<Named>("visitor", path);
    expect(names).toHaveLength(status === 200 ? 0 : 1);
  });

  it("is removed by the manager's form", async () => {
    const path = await shelve();
    await studio.send("author", `${path}/names`, { form: flint });
    const [name] = (await studio.json<Named>("visitor", path)).names;
    const page = await (await studio.send("manager", path)).text();
    expect(page).toContain(`action="${path}/names/${name?.id}/removal"`);
    const answer = await studio.send("manager", `${path}/names/${name?.id}/removal`, { form: {} });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, path]);
    expect((await studio.json<Named>("visitor", path)).names).toEqual([]);
  });

  it("is no name of another material", async () => {
    const [mine, other] = [await shelve(), await shelve()];
    await studio.send("author", `${mine}/names`, { json: flint });
    const [name] = (await studio.json<Named>("visitor", mine)).names;
    for (const id of [name?.id, "nonsense", "%00"]) {
      const path = `${other}/names/${id}`;
      expect((await studio.send("manager", path, { method: "DELETE" })).status).toBe(404);
    }
    expect((await studio.json<Named>("visitor", mine)).names).toHaveLength(1);
  });

  it("is kept once for a region, and the form shows what was typed", async () => {
    const path = await shelve();
    await studio.send("author", `${path}/names`, { json: flint });
    const again = await studio.send("author", `${path}/names`, {
      form: { ...flint, name: "FLINT", caution: "Typed with care." },
    });
    expect(again.status).toBe(422);
    expect(await again.text()).toContain("Typed with care.");
    const elsewhere = { ...flint, region: "Ireland" };
    expect((await studio.send("author", `${path}/names`, { json: elsewhere })).status).toBe(201);
  });

  it("needs a region", async () => {
    const answer = await studio.send("author", `${await shelve()}/names`, {
      json: { name: "Flint" },
    });
    expect(answer.status).toBe(422);
    expect((await answer.json()).errors).toEqual([{ path: "region", says: "This is needed." }]);
  });

  it("warns on both pages where one word names two powders", async () => {
    const [mine, other] = [await shelve(), await shelve()];
    const spar = { name: "Spar", region: "the United States", caution: "Ask for the potash one." };
    await studio.send("author", `${mine}/names`, { json: spar });
    await studio.send("author", `${other}/names`, { json: { ...spar, region: "Canada" } });
    const page = await (await studio.send("visitor", other)).text();
    expect(page).toContain("One word, two powders");
    expect(page).toContain("Ask for the potash one.");
    const json = await studio.json<{ lookAlikes: unknown[] }>("visitor", mine);
    expect(json.lookAlikes).toEqual([
      expect.objectContaining({ word: "Spar", slug: other.split("/")[2], region: "Canada" }),
    ]);
  });
});
