import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import {
  chemistries,
  photos,
  recipes,
  revisionStandings,
  revisions,
} from "../../src/db/schema/index.ts";
import { firstPage } from "../../src/demo/diary.ts";
import { demoGlazes } from "../../src/demo/glazes.ts";
import { startPreparing } from "../../src/demo/preparing.ts";
import { beginDemoStudio } from "../../src/demo/studio.ts";
import { demoTiles } from "../../src/demo/tiles.ts";
import { openTestDatabase } from "../engines/open.ts";
import { demoPassword, nothingPrepared } from "./studio.ts";

describe("what follows the demo's first page", () => {
  let database: Database;
  let follow: (() => Promise<void>) | undefined;
  let kept = 0;
  beforeAll(async () => {
    database = await openTestDatabase();
    const prepared = () => startPreparing(demoPassword);
    follow = await beginDemoStudio(database.db, prepared, async () => {
      kept += 1;
    });
  });
  afterAll(() => database.close());

  it("finds the first glazes with their chemistry, and no picture", async () => {
    const { db } = database;
    const published = demoGlazes.filter(({ revisions: [first] }) => new Date(first.at) < firstPage);
    expect(await db.$count(recipes)).toBe(published.length);
    expect(published.length).toBeGreaterThan(8);
    expect(await db.$count(chemistries)).toBe(await db.$count(revisions));
    expect(await db.$count(photos)).toBe(0);
    expect(kept).toBe(1);
  });

  it("goes on in the order of time until all is there, with nothing in doubt", async () => {
    const { db } = database;
    await follow?.();
    expect(await db.$count(recipes)).toBe(demoGlazes.length);
    expect(await db.$count(photos)).toBe(demoTiles.filter(({ look }) => look).length);
    const standings = await db
      .select({ unsettled: revisionStandings.unsettled })
      .from(revisionStandings);
    expect(standings.filter(({ unsettled }) => unsettled)).toEqual([]);
    expect(await findChainFault(db)).toBeUndefined();
    const times = (await listEvents(db, { limit: 10_000 })).map(({ at }) => at.getTime());
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });

  it("follows nothing where the studio is kept", async () => {
    expect(await beginDemoStudio(database.db, nothingPrepared, async () => {})).toBeUndefined();
    expect(kept).toBe(1);
  });
});
