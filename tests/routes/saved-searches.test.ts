import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Saved = { id: string; name: string; query: string; href: string };

describe("searches that somebody keeps", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const keep = async (who: Who, name: string, query: string) => {
    const answer = await studio.send(who, "/searches", { json: { name, query } });
    return { status: answer.status, json: (await answer.json()) as Saved & { errors?: object[] } };
  };
  const list = async (who: Who) => (await studio.json<{ items: Saved[] }>(who, "/searches")).items;

  it("are kept in one order without a place, and lead to what they find now", async () => {
    const { status, json } = await keep("author", "Whites", "?surface=gloss&cone=6&q=tin+white");
    expect([status, json.query]).toEqual([201, "q=tin+white&cone=6&surface=gloss"]);
    expect((await list("author")).map(({ href }) => href)).toEqual([
      "/recipes?q=tin+white&cone=6&surface=gloss",
    ]);
    const page = await (await studio.send("author", "/recipes")).text();
    expect(page).toContain('href="/recipes?q=tin+white&amp;cone=6&amp;surface=gloss"');
    expect(await (await studio.send("author", "/recipes?cone=6")).text()).toContain(
      'name="query" value="cone=6"',
    );
  });

  it("have a name each, in whatever case", async () => {
    await keep("reviewer", "Mats", "surface=matt");
    const again = await keep("reviewer", "  MATS ", "surface=satin");
    expect([again.status, again.json.errors]).toMatchObject([422, [{ path: "name" }]]);
    const form = { name: "Mats", query: "surface=satin" };
    const page = await studio.send("reviewer", "/searches", { form });
    expect([page.status, await page.text()]).toEqual([
      422,
      expect.stringContaining('name="query" value="surface=satin"'),
    ]);
    expect((await list("reviewer")).map(({ query }) => query)).toEqual(["surface=matt"]);
  });

  it.each(["", "cone=4.0", "?after=abc", "least.SiO2=x", "nothing=here"])(
    "are refused where the library cannot read them: %s",
    async (query) => {
      const { status, json } = await keep("other member", `Search ${query}`, query);
      expect([status, json.errors]).toMatchObject([422, [{ path: "query" }]]);
      expect(await list("other member")).toEqual([]);
    },
  );

  it("are their maker's alone", async () => {
    const { json } = await keep("manager", "Mine", "cone=6");
    expect(await list("other member")).toEqual([]);
    const taken = await studio.send("other member", `/searches/${json.id}`, {
      method: "DELETE",
      json: {},
    });
    expect(taken.status).toBe(404);
    expect(await list("manager")).toHaveLength(1);
    expect((await studio.send("visitor", "/searches")).status).toBe(401);
    expect((await keep("visitor", "Ours", "cone=6")).status).toBe(401);
    const gone = await studio.send("manager", `/searches/${json.id}/end`, { form: {} });
    expect([gone.status, gone.headers.get("location")]).toEqual([303, "/searches"]);
    expect(await list("manager")).toEqual([]);
  });

  it("are no more than fifty, also where two come at once", async () => {
    for (let each = 0; each < 49; each += 1)
      expect((await keep("other member", `Search ${each}`, "cone=6")).status).toBe(201);
    const both = await Promise.all(
      ["one", "two"].map((name) => keep("other member", name, "cone=6")),
    );
    expect(both.map(({ status }) => status).toSorted()).toEqual([201, 422]);
    expect(await list("other member")).toHaveLength(50);
  });
});
