import { eq, ne } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { engine } from "../../src/chem/chemistry.ts";
import { countStale, recomputeSome } from "../../src/db/recomputing.ts";
import { chemistries } from "../../src/db/schema/index.ts";
import { recomputeAll } from "../../src/work/recomputing.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("a new engine", () => {
  let studio: TestStudio;
  const slugs: string[] = [];
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    for (let n = 0; n < 5; n += 1) slugs.push(await publish(studio));
    slugs.push(await publish(studio, { shownTo: "private" }));
  });
  afterAll(() => studio.close());

  /** As an earlier engine left them, one with another silica. */
  const grow = async () => {
    const [row] = await studio.db
      .select()
      .from(chemistries)
      .orderBy(chemistries.revisionId)
      .limit(1);
    const { detail } = row!;
    const unity = { ...detail.unity, SiO2: { value: 9, plusMinus: 0.1 } };
    await studio.db
      .update(chemistries)
      .set({ engine: "0.9.0" })
      .where(ne(chemistries.engine, "0.9.0"));
    await studio.db
      .update(chemistries)
      .set({ detail: { ...detail, engine: "0.9.0", unity }, unitySiO2: 9 })
      .where(eq(chemistries.revisionId, row!.revisionId));
  };

  it("works out every revision anew, some at a time, and can be stopped between", async () => {
    const before = await studio.db.select().from(chemistries).orderBy(chemistries.revisionId);
    await grow();
    expect(await countStale(studio.db)).toBe(6);
    expect(await recomputeSome(studio.db, { limit: 2, at: new Date() })).toBe(2);
    expect(await countStale(studio.db)).toBe(4);
    const stopped = new AbortController();
    stopped.abort();
    expect(await recomputeAll(studio.db, { signal: stopped.signal })).toBe(0);
    expect(await recomputeAll(studio.db, { limit: 3 })).toBe(4);
    expect(await studio.db.select().from(chemistries).orderBy(chemistries.revisionId)).toEqual(
      before,
    );
  });

  it("does each once where two instances work at the same time", async () => {
    await grow();
    const done = await Promise.all([
      recomputeAll(studio.db, { limit: 1 }),
      recomputeAll(studio.db, { limit: 1 }),
    ]);
    expect(done[0] + done[1]).toBe(6);
    expect(await countStale(studio.db)).toBe(0);
  });

  it("says what moved, and by how much", async () => {
    const page = await studio.json<{
      engine: string;
      stale: number;
      items: { slug: string; from: string; moves: unknown[] }[];
    }>("visitor", "/recomputations");
    expect(page).toMatchObject({ engine, stale: 0, items: [{ slug: slugs[0], from: "0.9.0" }] });
    expect(page.items[0]?.moves).toContainEqual(
      expect.objectContaining({ kind: "unity", oxide: "SiO2", before: 9 }),
    );
    expect(await (await studio.send("visitor", "/recomputations")).text()).toContain(
      "SiO2 in the unity formula from 9.000",
    );
  });
});
