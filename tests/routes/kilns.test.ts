import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { kilns as stored } from "../../src/db/schema/index.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Kiln = { slug: string; name: string; about: string; firings: { items: { id: string }[] } };

describe("kilns", () => {
  let studio: TestStudio;
  let named = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const add = (who: Who, json: object) => studio.send(who, "/kilns", { json });
  const newName = () => {
    named += 1;
    return `Gannet ${named}`;
  };

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who adds one with %i", async (who, status) => {
    const name = newName();
    const before = await studio.db.$count(stored);
    const answer = await add(who, { name, about: "Electric." });
    expect(answer.status).toBe(status);
    expect(await studio.db.$count(stored)).toBe(before + (status === 201 ? 1 : 0));
    if (status !== 201) return;
    const kiln = (await answer.json()) as Kiln;
    expect(answer.headers.get("location")).toBe(`/kilns/${kiln.slug}`);
    expect(await studio.json("visitor", `/kilns/${kiln.slug}`)).toEqual({
      ...kiln,
      firings: { items: [], next: null },
    });
    const [latest] = (await listEvents(studio.db, { limit: 10_000 })).slice(-1);
    expect(latest).toMatchObject({ kind: "kiln added", subject: "kiln" });
  });

  it.each<[string, object, string]>([
    ["no name", { about: "Electric." }, "name"],
    ["a name too long to read", { name: "x".repeat(81) }, "name"],
    ["an account of it too long", { name: "Wren", about: "x".repeat(2001) }, "about"],
    ["a field that is none", { name: "Wren", volts: 400 }, "volts"],
  ])("refuses %s, by its field, and keeps nothing", async (_, json, path) => {
    const before = await studio.db.$count(stored);
    const answer = await add("author", json);
    expect(answer.status).toBe(422);
    expect((await answer.json()).errors).toMatchObject([{ path }]);
    expect(await studio.db.$count(stored)).toBe(before);
  });

  it("takes the form below the list, and shows it again with what was typed", async () => {
    const form = { name: "Petrel <hot>", about: "Reaches cone 8.", idempotencyKey: "petrel" };
    const made = await studio.send("author", "/kilns", { form });
    expect([made.status, made.headers.get("location")]).toEqual([303, "/kilns/petrel-hot"]);
    const page = await (await studio.send("visitor", "/kilns/petrel-hot")).text();
    expect(page).toContain("<h1>Petrel &lt;hot&gt;</h1>");
    expect(page).toContain("Reaches cone 8.");
    expect(page).toContain("No firing is on record here.");

    const again = await studio.send("author", "/kilns", {
      form: { name: "PETREL <hot>", about: "Another." },
    });
    expect(again.status).toBe(422);
    const refused = await again.text();
    expect(refused).toContain('href="#field-name"');
    expect(refused).toContain("/kilns/petrel-hot");
    expect(refused).toMatch(/<textarea[^>]*>Another\.<\/textarea>/);
  });

  it("has one of two who name theirs alike at the same moment", async () => {
    const both = await Promise.all(
      (["author", "manager"] as const).map((who) => add(who, { name: "Dunlin" })),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([201, 422]);
  });

  it("lists them by name, with the form for people of the studio alone", async () => {
    for (const name of ["wren", "Auk"]) await add("author", { name });
    const { items, next } = await studio.json<{ items: Kiln[]; next: null }>("visitor", "/kilns");
    expect([items[0]?.name, items.at(-1)?.name, next]).toEqual(["Auk", "wren", null]);
    const seenBy = async (who: Who) => (await studio.send(who, "/kilns")).text();
    expect(await seenBy("visitor")).toContain('href="/kilns/auk"');
    expect(await seenBy("visitor")).not.toContain("<form");
    expect(await seenBy("author")).toContain('action="/kilns"');
  });

  it("knows no kiln by nonsense, and no place in its list", async () => {
    for (const slug of ["none", "%00", "new"]) {
      expect((await studio.send("manager", `/kilns/${slug}`)).status, slug).toBe(404);
    }
    await add("author", { name: "Skua" });
    expect((await studio.send("author", "/kilns/skua?after=7")).status).toBe(422);
  });
});
