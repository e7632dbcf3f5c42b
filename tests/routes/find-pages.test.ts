import { sql } from "drizzle-orm";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listStrips, type Place, type Search } from "../../src/db/library.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";
import { stand } from "../waiting.ts";

const now = new Date("2026-11-01T09:00:00Z");

describe("the library page by page", () => {
  let studio: TestStudio;
  const slugs: string[] = [];
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    for (let each = 0; each < 12; each += 1) slugs.push(await publish(studio));
    // The names of half of them are made one in the list's eyes, so that ids have to tell them apart.
    await studio.db.execute(sql`update recipe_heads set name_key = 'the same' where recipe_id in (
      select recipe_id from recipe_heads order by recipe_id limit 6)`);
    await stand(studio, slugs[3] ?? "", { is: "approved", for: "functional" });
    await stand(studio, slugs[7] ?? "", { is: "approved", for: "functional" });
    await stand(studio, slugs[8] ?? "", { is: "approved", for: "decorative" });
  });
  afterAll(() => studio.close());

  const reader = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;

  const inPages = async (search: Search, limit: number): Promise<string[]> => {
    const found: string[] = [];
    let after: Place | undefined;
    do {
      const page = await listStrips(studio.db, { reader, now, search, after, limit });
      found.push(...page.strips.map(({ slug }) => slug));
      after = page.next ?? undefined;
    } while (after && found.length < 100);
    return found;
  };

  it("leaves no gap and repeats nothing, wherever pages end and whatever keys are equal", async () => {
    const term = { words: [["slack"]], begins: false, ids: [] };
    const searches: Search[] = [{}, { use: "decorative" }, { terms: [term], typed: "slack" }];
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 13 }),
        fc.constantFrom(...searches),
        async (limit, search) => {
          const whole = await inPages(search, 50);
          expect(whole.toSorted()).toEqual(slugs.toSorted());
          expect(await inPages(search, limit)).toEqual(whole);
        },
      ),
      { numRuns: 12 },
    );
  });

  it("begins with what is approved as functional and holds now", async () => {
    const first = await inPages({}, 50);
    expect(first.slice(0, 2).toSorted()).toEqual([slugs[3] ?? "", slugs[7] ?? ""].toSorted());
    await studio.db.execute(sql`update revision_standings s set valid_until = '2026-10-01T00:00:00Z'
      from revisions v join recipes r on r.id = v.recipe_id where v.id = s.revision_id and r.slug = ${slugs[7]}`);
    const { strips } = await listStrips(studio.db, { reader, now, search: {}, limit: 1 });
    expect(strips.map(({ slug }) => slug)).toEqual([slugs[3]]);
    expect(await inPages({ standing: "approved" }, 5)).not.toContain(slugs[7]);
  });
});
