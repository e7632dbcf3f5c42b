import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { appendEvent } from "../../src/db/events.ts";
import { join } from "../joined.ts";
import { keepWork } from "../kept.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Event = { seq: number; kind: string; by: { name: string } | null; at: string };
type List = { items: Event[]; next: string | null };

describe("the record", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const happen = (kind: string, detail: Record<string, string>, subjectId = uuidv7()) =>
    studio.db.transaction((tx) =>
      appendEvent(
        tx,
        { by: studio.ids.manager, at: new Date("2026-03-01T10:00:00Z") },
        { kind, subject: "recipe", subjectId, detail },
      ),
    );
  const page = async (path = "/events") => {
    const html = await (await studio.send("manager", path)).text();
    return html.replace(/<[^>]+>/g, "").replace(/\s+/g, " ");
  };

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s with %i", async (who, status) => {
    for (const accept of ["text/html", "application/json"])
      expect((await studio.send(who, "/events", { accept })).status).toBe(status);
  });

  it("reads as who did what, and when", async () => {
    const one = await join(studio);
    const path = `/people/${one.id}`;
    await studio.send("manager", path, { method: "PATCH", json: { role: "reviewer" } });
    const told = await page();
    expect(told).toContain("Ines Okafor made a link by which a member can join.");
    expect(told).toContain(`${one.name} joined the studio as member.`);
    expect(told).toContain(`Ines Okafor made ${one.name} reviewer instead of member.`);
    expect(told).toMatch(/\d{1,2} \w+ \d{4}, \d\d:\d\d UTC/);
  });

  it("leads to the page of what it is about", async () => {
    const { recipeId, slug } = await keepWork(studio, studio.ids.author);
    await happen("withdrawn", {}, recipeId);
    const html = await (await studio.send("manager", "/events")).text();
    expect(html).toContain(`<a href="/recipes/${slug}">`);
  });

  it("shows a kind that it has no words for as it is", async () => {
    await happen("weighed <twice>", { grams: "12" });
    const html = await (await studio.send("manager", "/events")).text();
    expect(html).toContain("weighed &lt;twice&gt; (recipe)");
    expect(html).toContain("grams 12");
  });

  it("comes a hundred at a time in JSON, without a gap", async () => {
    for (let n = 0; n < 120; n += 1) await happen("counted", { n: String(n) });
    const seen: number[] = [];
    let after = "0";
    for (;;) {
      const list = await studio.json<List>("manager", `/events?after=${after}`);
      expect(list.items.length).toBeLessThanOrEqual(100);
      seen.push(...list.items.map(({ seq }) => seq));
      if (list.next === null) break;
      expect(list.next).toBe(String(seen.at(-1)));
      after = list.next;
    }
    expect(seen).toEqual(Array.from(seen, (_, n) => n + 1));
    expect(seen.length).toBeGreaterThan(120);
    const past = await studio.json<List>("manager", `/events?after=${seen.length}`);
    expect(past).toEqual({ items: [], next: null });
  });

  it.each(["x", "-1", "1.5", "1e99", "%27"])("refuses after=%s", async (after) => {
    const answer = await studio.send("manager", `/events?after=${after}`, {
      accept: "application/json",
    });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path: "after" }] });
  });

  it("broke nowhere", () => expect(studio.logged).toEqual([]));
});
