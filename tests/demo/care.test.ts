import { afterAll, beforeAll, expect, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { listRound } from "../../src/db/rounds.ts";
import { stopOf } from "../../src/routes/round-json.ts";
import { openMadeDemo } from "./studio.ts";

let database: Database;
beforeAll(async () => {
  database = await openMadeDemo();
});
afterAll(() => database.close());

it("goes round the demo's buckets: one off its colour, one that flows too slowly", async () => {
  const now = new Date("2026-11-20T09:00:00Z");
  const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;
  const round = await listRound(database.db, { reader, now, since: now });
  const stops = round.map((stop) => stopOf(stop, now));
  const stop = (name: string) => stops.find((each) => each.name === name);
  expect(stop("Slack Water, big tub")).toMatchObject({
    daysSinceStirred: 41,
    gravity: { within: true },
    proof: { sinceMix: true, deltaE: expect.any(Number) },
    flags: expect.arrayContaining([expect.stringContaining("wrong colour")]),
  });
  expect(stop("Little Tern")).toMatchObject({ gravity: { within: true }, flow: { within: false } });
  expect(stop("Common Tern")).toMatchObject({ gravity: { within: true } });
  expect(stop("Little Tern, spare pail")).toMatchObject({
    measuredAt: null,
    daysSinceStirred: null,
  });
});
