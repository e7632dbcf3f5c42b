import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readChain } from "../../src/db/chain.ts";
import type { Database } from "../../src/db/client.ts";
import { restoreLibrary } from "../../src/work/restoring.ts";
import { verify } from "../../src/work/verifying.ts";
import { openMadeDemo } from "../demo/studio.ts";
import { openTestDatabase } from "../engines/open.ts";
import { openEmbeddedToo } from "../engines/other.ts";
import { exportOf, filesIn, madeAt } from "../exports.ts";

const now = new Date("2026-11-28T09:00:00Z");

let demo: Database;
let zip: Buffer;
beforeAll(async () => {
  demo = await openMadeDemo();
  zip = await exportOf(demo.db);
});
afterAll(() => demo.close());

/** The names of files that are not the same to the byte. */
async function differing(one: Buffer, other: Buffer): Promise<string[]> {
  const [files, others] = [await filesIn(one), await filesIn(other)];
  const names = new Set([...files.keys(), ...others.keys()]);
  return [...names].filter((name) => !files.get(name)?.equals(others.get(name) ?? Buffer.of()));
}

describe("the demo restored", () => {
  it("comes out of the other engine to the byte as it went in, and back", async () => {
    const embedded = await openEmbeddedToo();
    const restored = await restoreLibrary(embedded.db, { bytes: zip }, { now });
    expect(restored).toMatchObject({ kind: "restored" });
    const again = await exportOf(embedded.db);
    expect(await differing(zip, again)).toEqual([]);
    expect(again.equals(zip)).toBe(true);

    const last = (await readChain(demo.db)).head;
    const verified = await verify(embedded.db, { last, now });
    expect(verified).toMatchObject({ sound: true });
    expect((await readChain(embedded.db)).head).toEqual(last);
    await embedded.close();

    const back = await openTestDatabase();
    expect(await restoreLibrary(back.db, { bytes: again }, { now })).toMatchObject({
      kind: "restored",
    });
    expect((await exportOf(back.db, madeAt)).equals(zip)).toBe(true);
    await back.close();
  });
});
