import { Decimal } from "decimal.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listBuckets } from "../../src/db/buckets.ts";
import type { Database } from "../../src/db/client.ts";
import { mixStateOf } from "../../src/db/mix-chemistry.ts";
import { type FoundMix, listMixes } from "../../src/db/mixes.ts";
import { stockMoves } from "../../src/db/schema/index.ts";
import { demoMixes } from "../../src/demo/mixes.ts";
import { openMadeDemo } from "./studio.ts";

const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;

describe("what was weighed in the demo", () => {
  let database: Database;
  let mixes: FoundMix[];
  beforeAll(async () => {
    database = await openMadeDemo();
    const now = new Date("2026-11-20T09:00:00Z");
    const { items } = await listBuckets(database.db, { reader, now, limit: 100 });
    mixes = [];
    for (const { id } of items)
      mixes.push(...(await listMixes(database.db, { bucketId: id, limit: 9 })));
  });
  afterAll(() => database.close());

  it("is five mixes that were finished and one that is open, with too much of one powder in", async () => {
    expect(mixes.map(({ end }) => end?.is ?? "open").sort()).toEqual([
      ...Array(5).fill("finished"),
      "open",
    ]);
    expect(mixes.length).toBe(demoMixes.length);
    const open = mixes.find(({ end }) => end === null) as FoundMix;
    expect(open.lines.filter(({ put }) => put !== null).length).toBe(2);
    const { correction } = await mixStateOf(database.db, open, new Decimal(1));
    expect(correction.kind).toBe("correct");
  });

  it("came out of bags on record, and each gram is deducted", async () => {
    const ticks = mixes.flatMap(({ lines }) => lines.flatMap((line) => line.ticks));
    const weighed = ticks.flatMap(({ lot, grams }) => (lot ? [grams] : []));
    const moves = await database.db.select().from(stockMoves);
    const taken = moves.flatMap(({ because, grams }) => (because === "mix" ? [grams] : []));
    expect(
      Decimal.sum(0, ...taken)
        .neg()
        .toFixed(),
    ).toBe(Decimal.sum(0, ...weighed).toFixed());
    expect(weighed.length).toBeGreaterThan(8);
  });
});
