import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { driftOf } from "../../src/chem/colour-comparing.ts";
import { listBuckets } from "../../src/db/buckets.ts";
import type { Database } from "../../src/db/client.ts";
import { listProofTiles } from "../../src/db/proof-tiles.ts";
import { findStudio } from "../../src/db/studios.ts";
import { proved } from "../../src/demo/proofs.ts";
import { openMadeDemo } from "./studio.ts";

const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;

describe("what the demo's buckets prove", () => {
  let database: Database;
  beforeAll(async () => {
    database = await openMadeDemo();
  });
  afterAll(() => database.close());

  it("has three proof tiles of the big tub, the last over the studio's line", async () => {
    const now = new Date("2026-11-20T09:00:00Z");
    const { items } = await listBuckets(database.db, { reader, now, limit: 100 });
    const tub = items.find(({ name }) => name === proved.name);
    const tiles = await listProofTiles(database.db, { bucketId: tub?.id ?? "", reader });
    const tolerance = (await findStudio(database.db)).colourTolerance?.toNumber() ?? 0;
    const far = driftOf(tiles).drift?.later.map(({ difference }) =>
      difference.kind === "differs" ? difference.deltaE > tolerance : undefined,
    );
    expect(far).toEqual([false, true]);
  });
});
