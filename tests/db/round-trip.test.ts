import { afterAll, expect, it } from "vitest";
import { readChain } from "../../src/db/chain.ts";
import type { Database } from "../../src/db/client.ts";
import { restoreLibrary } from "../../src/work/restoring.ts";
import { verify } from "../../src/work/verifying.ts";
import { openTestDatabase } from "../engines/open.ts";
import { openEmbeddedToo } from "../engines/other.ts";
import { exportOf, filesIn } from "../exports.ts";
import { generateStudio, stepNames } from "../generating/studio.ts";

/** How many studios are made up; STUDIOS=200 makes many. */
const studios = Number(process.env.STUDIOS ?? 3);
const firstSeed = Number(process.env.STUDIOS_FROM ?? 1);

const done = new Map<string, number>();
afterAll(() => {
  const never = stepNames.filter((name) => !done.has(name));
  if (studios >= 20) expect(never).toEqual([]);
});

it.each(Array.from({ length: studios }, (_, place) => firstSeed + place))(
  "studio %i comes back as it was, on the other engine",
  async (seed) => {
    const [from, to] =
      seed % 2 === 0 ? [openEmbeddedToo, openTestDatabase] : [openTestDatabase, openEmbeddedToo];
    const here: Database = await from();
    const there: Database = await to();
    try {
      const generated = await generateStudio(here, { seed, length: 60 });
      for (const [name, times] of generated.done) done.set(name, (done.get(name) ?? 0) + times);
      const zip = await exportOf(here.db);
      const now = new Date();
      const restored = await restoreLibrary(there.db, { bytes: zip }, { now });
      expect(restored).toMatchObject({ kind: "restored" });

      const again = await exportOf(there.db);
      const [files, others] = [await filesIn(zip), await filesIn(again)];
      for (const [name, bytes] of files)
        expect(others.get(name)?.toString("latin1"), `${seed}: ${name}`).toBe(
          bytes.toString("latin1"),
        );
      expect(again.equals(zip)).toBe(true);

      const last = (await readChain(here.db)).head;
      expect(last.seq).toBeGreaterThan(20);
      expect((await readChain(there.db)).head).toEqual(last);
      expect(await verify(there.db, { last, now })).toMatchObject({ sound: true });
    } finally {
      await here.close();
      await there.close();
    }
  },
  300_000,
);
