import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { appendEvent, appendEvents } from "../../src/db/events.ts";
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

  const list = (query: string) => studio.json<List>("manager", `/events?${query}`);

  it("is narrowed by who, what, to what and on which day", async () => {
    const at = new Date("2026-04-02T23:59:59.999Z");
    await studio.db.transaction((tx) =>
      appendEvents(tx, [
        {
          act: { by: studio.ids.reviewer, at },
          happening: { kind: "weighed", subject: "tile", subjectId: uuidv7() },
        },
        {
          act: { by: null, at: new Date(at.getTime() + 1) },
          happening: { kind: "weighed", subject: "lot", subjectId: uuidv7() },
        },
      ]),
    );
    const found = async (query: string) =>
      (await list(query)).items.map(({ by, kind }) => `${by?.name ?? "program"} ${kind}`);
    expect(await found(`who=${studio.ids.reviewer}`)).toEqual(["Tam Pellew weighed"]);
    expect(await found("who=program")).toEqual(["program weighed"]);
    expect(await found("kind=weighed")).toHaveLength(2);
    expect(await found("kind=weighed&subject=lot")).toEqual(["program weighed"]);
    expect(await found("day=2026-04-02")).toEqual(["Tam Pellew weighed"]);
    expect(await found("day=2026-04-03")).toEqual(["program weighed"]);
    expect(await found("kind=weighed&who=&day=")).toHaveLength(2);
    expect(await found("kind=nothing%20of%20the%20kind")).toEqual([]);
  });

  it("comes newest first on the page, with what was asked for kept in its links", async () => {
    const { items } = await list("kind=counted&before=999999");
    expect(items.map(({ seq }) => seq)).toEqual(
      items.map(({ seq }) => seq).sort((one, other) => other - one),
    );
    const html = await (await studio.send("manager", "/events?kind=counted")).text();
    const numbers = [...html.matchAll(/No\. (\d+)/g)].map(([, seq]) => Number(seq));
    expect(numbers).toEqual(items.map(({ seq }) => seq));
    const [, earlier = ""] = /href="([^"]*before=[^"]*)"/.exec(html) ?? [];
    expect(earlier).toBe(`/events?kind=counted&amp;before=${numbers.at(-1)}`);
    expect(html).toContain('<option value="counted" selected="">');
    const rest = await (await studio.send("manager", earlier.replace("&amp;", "&"))).text();
    expect([...rest.matchAll(/No\. (\d+)/g)]).toHaveLength(20);
    expect(rest).not.toContain("Earlier ones");
  });

  it.each(["who=x", "subject=nothing", "day=2026-02-30", "before=x"])(
    "refuses %s",
    async (asked) => {
      for (const accept of ["text/html", "application/json"])
        expect((await studio.send("manager", `/events?${asked}`, { accept })).status).toBe(422);
    },
  );

  it.each(["x", "-1", "1.5", "1e99", "%27"])("refuses after=%s", async (after) => {
    const answer = await studio.send("manager", `/events?after=${after}`, {
      accept: "application/json",
    });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path: "after" }] });
  });

  it("broke nowhere", () => expect(studio.logged).toEqual([]));
});
