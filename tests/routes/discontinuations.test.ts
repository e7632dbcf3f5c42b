import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Material = {
  stillSold: boolean;
  discontinued: { since: string; why: string } | null;
  usedIn: { name: string }[];
};

describe("discontinuations", () => {
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
    const json = { name: `Powder ${made}`, formula: "CaCO3" };
    await studio.send("manager", "/materials", { json });
    return `/materials/powder-${made}`;
  };
  const read = (path: string, who: Who = "visitor") => studio.json<Material>(who, path);
  const gone = { since: "2026-03-01", why: "The pit was closed." };
  const put = (who: Who, path: string) =>
    studio.send(who, `${path}/discontinuation`, { method: "PUT", json: gone });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s who says that it is no longer sold with %i", async (who, status) => {
    const path = await shelve();
    expect((await put(who, path)).status).toBe(status);
    const { stillSold, discontinued } = await read(path);
    expect(stillSold).toBe(status !== 200);
    expect(discontinued).toEqual(status === 200 ? expect.objectContaining(gone) : null);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s who says that it is sold again with %i", async (who, status) => {
    const path = await shelve();
    await put("manager", path);
    const json = { why: "Quayside Ceramics has it again." };
    const ended = await studio.send(who, `${path}/discontinuation`, { method: "DELETE", json });
    expect(ended.status).toBe(status);
    expect((await read(path)).stillSold).toBe(status === 200);
  });

  it("lists what it breaks, as far as the reader may know of it", async () => {
    const path = await shelve();
    const slug = path.split("/")[2];
    const publish = (name: string, shownTo: string) =>
      studio.send("author", "/recipes", {
        json: {
          name,
          shownTo,
          revision: {
            lines: [{ part: "base", material: slug, amount: "100" }],
            use: "decorative",
            cones: { low: "6", high: "6" },
          },
        },
      });
    await publish("Ebb Green", "public");
    await publish("Wrack Line", "studio");
    await publish("Mackerel Sky", "private");
    await put("manager", path);

    const names = async (who: Who) => (await read(path, who)).usedIn.map(({ name }) => name);
    expect(await names("visitor")).toEqual(["Ebb Green"]);
    expect(await names("other member")).toEqual(["Ebb Green", "Wrack Line"]);
    expect(await names("author")).toEqual(["Ebb Green", "Mackerel Sky", "Wrack Line"]);
    expect(await names("manager")).toEqual(["Ebb Green", "Mackerel Sky", "Wrack Line"]);
    const page = await (await studio.send("visitor", path)).text();
    expect(page).toContain("No longer sold since");
    expect(page).toContain("The pit was closed.");
    expect(page).toContain("Ebb Green");
    expect(page).not.toContain("Mackerel Sky");
  });

  it("no longer lists a recipe whose head does without it", async () => {
    const [path, other] = [await shelve(), await shelve()];
    const lines = (at: string) => [{ part: "base", material: at.split("/")[2], amount: "100" }];
    const revision = { use: "decorative", cones: { low: "6", high: "6" }, lines: lines(path) };
    const json = { name: "Sandpiper Matt", revision };
    expect((await studio.send("author", "/recipes", { json })).status).toBe(201);
    expect((await read(path)).usedIn).toHaveLength(1);
    const next = await studio.send("author", "/recipes/sandpiper-matt/revisions", {
      json: { ...revision, basedOn: 1, message: "Another lime.", lines: lines(other) },
    });
    expect(next.status).toBe(201);
    expect((await read(path)).usedIn).toEqual([]);
    expect((await read(other)).usedIn).toHaveLength(1);
  });

  it("is said and taken back by the manager's forms", async () => {
    const path = await shelve();
    const refused = await studio.send("manager", `${path}/discontinuation`, {
      form: { since: "soon", why: "The pit was closed." },
    });
    expect(refused.status).toBe(422);
    const page = await refused.text();
    expect(page).toContain('href="#field-since"');
    expect(page).toContain("The pit was closed.");
    const said = await studio.send("manager", `${path}/discontinuation`, { form: gone });
    expect([said.status, said.headers.get("location")]).toEqual([303, path]);
    const end = `${path}/discontinuation/end`;
    const again = await studio.send("manager", end, { form: { why: "Sold again." } });
    expect(again.status).toBe(303);
    expect((await read(path)).stillSold).toBe(true);
  });

  it("says so where somebody was first to take it back", async () => {
    const path = await shelve();
    const json = { why: "Sold again." };
    const end = await studio.send("manager", `${path}/discontinuation`, { method: "DELETE", json });
    expect(end.status).toBe(409);
  });

  it("keeps the newest word, and every word stays on record", async () => {
    const path = await shelve();
    await put("manager", path);
    const json = { since: "2026-04-01", why: "It was April." };
    await studio.send("manager", `${path}/discontinuation`, { method: "PUT", json });
    expect((await read(path)).discontinued).toMatchObject(json);
  });

  it.each([
    [{ since: "2026-02-30", why: "x" }, "since"],
    [{ since: "0000-01-01", why: "x" }, "since"],
    [{ since: "2026-02-03" }, "why"],
    [{ since: "2026-02-03", why: "x", who: "me" }, "who"],
  ])("refuses %j at %s", async (json, path) => {
    const at = await shelve();
    const refused = await studio.send("manager", `${at}/discontinuation`, { method: "PUT", json });
    expect(refused.status).toBe(422);
    expect((await refused.json()).errors.map((fault: { path: string }) => fault.path)).toEqual([
      path,
    ]);
    expect((await read(at)).stillSold).toBe(true);
  });
});
