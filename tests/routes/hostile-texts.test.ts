import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";
import { rows } from "./permission-rows.ts";

/** What a page must never hold as it is: it would be run. */
const hostile = `<img src=x onerror=alert(1)>"'`;
const run = /<img src=x onerror/;

/** Fields that take words of people's own. */
const words = new Set([
  ...["name", "about", "message", "surface", "text", "why", "reasons", "remark", "intro", "note"],
  ...["method", "laboratory", "place", "clay", "caution", "source", "mark", "beside", "colour"],
  ...["named", "title"],
]);
/** Their slugs are asked for by name in what the tests lay down. */
const named = /^\/(materials|suppliers)$/;

const withHostileWords = (path: string, value: unknown, field = ""): unknown => {
  if (typeof value === "string")
    return words.has(field) && !(named.test(path) && field === "name") ? value + hostile : value;
  if (Array.isArray(value)) return value.map((each) => withHostileWords(path, each));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, each]) => [name, withHostileWords(path, each, name)]),
  );
};

describe("words that would be run", () => {
  let studio: TestStudio;
  let sent = 0;
  beforeAll(async () => {
    const plain = await openTestStudio();
    studio = {
      ...plain,
      send: async (who, path, given = {}) => {
        if (given.json === undefined) return plain.send(who, path, given);
        const json = withHostileWords(path, given.json);
        const answer = await plain.send(who, path, { ...given, json });
        if (answer.status !== 422) {
          if (JSON.stringify(json) !== JSON.stringify(given.json)) sent += 1;
          return answer;
        }
        // A field may take no such word at all, which is as good.
        return plain.send(who, path, given);
      },
    };
    await stockShelf(studio);
    await studio.send("manager", "/suppliers", { json: { name: "Quayside Ceramics" } });
    await studio.send("manager", "/materials/quartz/names", {
      json: { name: "Flint", region: "United Kingdom", caution: "Not the pebble." },
    });
    await studio.db.execute(sql`update people set name = name || ${hostile}`);
    await studio.db.execute(sql`update studios set name = name || ${hostile}`);
    const slug = await publish(studio);
    await studio.send("reviewer", `/recipes/${slug}/notes`, {
      json: { text: "Sieve it twice.", blocking: true },
    });
  });
  afterAll(() => studio.close());

  const pages = Object.entries(rows).filter(([call]) => call.startsWith("GET "));

  it("stand in pages as words", async () => {
    const told: string[] = [];
    const shown: string[] = [];
    for (const [call, { at }] of pages) {
      const path = await at(studio);
      const answer = await studio.send("manager", path, { accept: "text/html" });
      if (!answer.headers.get("content-type")?.startsWith("text/html")) continue;
      const page = await answer.text();
      if (run.test(page)) told.push(call);
      if (page.includes("&lt;img src=x onerror")) shown.push(call);
    }
    expect(told).toEqual([]);
    // Each of them shows at least the studio's own name.
    expect(shown.length).toBeGreaterThan(100);
    expect(sent).toBeGreaterThan(60);
    expect(studio.logged).toEqual([]);
  }, 600_000);
});
