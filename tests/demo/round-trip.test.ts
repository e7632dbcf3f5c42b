import { afterAll, beforeAll, expect, it } from "vitest";
import { readChain } from "../../src/db/chain.ts";
import type { Database } from "../../src/db/client.ts";
import { restoreLibrary } from "../../src/work/restoring.ts";
import { verify } from "../../src/work/verifying.ts";
import { openTestDatabase } from "../engines/open.ts";
import { openEmbeddedToo } from "../engines/other.ts";
import { exportOf, filesIn } from "../exports.ts";
import { openMadeDemo } from "./studio.ts";

let made: Database;
beforeAll(async () => {
  made = await openMadeDemo();
});
afterAll(() => made.close());

/** There on the embedded engine, whichever this run is for, and back on this run's own. */
it("brings the whole year over to the other engine and back, the same to the byte", async () => {
  const first = await exportOf(made.db);
  const { head: last } = await readChain(made.db);
  let zip = first;
  for (const open of [openEmbeddedToo, openTestDatabase]) {
    const place = await open();
    try {
      const now = new Date();
      const restored = await restoreLibrary(place.db, { bytes: zip }, { now });
      expect(restored).toMatchObject({ kind: "restored" });
      expect(await verify(place.db, { last, now })).toMatchObject({ sound: true });
      zip = await exportOf(place.db);
    } finally {
      await place.close();
    }
  }
  const [files, others] = [await filesIn(first), await filesIn(zip)];
  expect(files.size).toBeGreaterThan(20);
  for (const [name, bytes] of files) expect(others.get(name)?.equals(bytes), name).toBe(true);
  expect(zip.equals(first)).toBe(true);
}, 300_000);
