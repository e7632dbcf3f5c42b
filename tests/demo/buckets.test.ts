import { afterAll, beforeAll, expect, it } from "vitest";
import { listBuckets } from "../../src/db/buckets.ts";
import type { Database } from "../../src/db/client.ts";
import { openMadeDemo } from "./studio.ts";

let database: Database;
beforeAll(async () => {
  database = await openMadeDemo();
});
afterAll(() => database.close());

it("has buckets for a mug, one off its colour, one that moved, one to try out and one half mixed", async () => {
  const now = new Date("2026-11-20T09:00:00Z");
  const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;
  const { items } = await listBuckets(database.db, { reader, now, limit: 100 });
  expect(
    items.map(({ name, is, forTest, mayUse }) => {
      return [name, is, forTest, mayUse.food, mayUse.decorative];
    }),
  ).toEqual([
    ["Common Tern", "open", false, false, false],
    ["Little Tern", "open", false, true, true],
    ["Little Tern, spare pail", "hold", false, false, false],
    ["Mackerel Sky, to try out", "open", true, false, false],
    ["Slack Water, big tub", "open", false, false, true],
    ["Slack Water, dipping bucket", "open", false, true, true],
  ]);
  const moved = items.flatMap(({ name, forTest, moved: by }) =>
    by.length > 0 && !forTest ? [name] : [],
  );
  expect(moved).toEqual(["Common Tern"]);
});
