import { eq, sql } from "drizzle-orm";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { apart } from "../../src/chem/nearest.ts";
import { type Moles, meltOxides } from "../../src/chem/restating.ts";
import { listNearest, mostNearest, nearOnThePlane, within } from "../../src/db/nearest.ts";
import { type Reader, readableBy, setWithdrawn } from "../../src/db/recipes.ts";
import { chemistries, recipes, revisions } from "../../src/db/schema/index.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { addHeads } from "../many-heads.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const unity = Object.fromEntries(meltOxides.map((oxide) => [oxide, chemistries[`unity${oxide}`]]));
const at = new Date("2026-03-01T10:00:00Z");

describe("the nearest in chemistry", () => {
  let studio: TestStudio;
  let like: Awaited<ReturnType<typeof publishGlaze>>;
  beforeAll(async () => {
    studio = await openTestStudio();
    const lines = await stockShelf(studio);
    like = await publishGlaze(studio, { name: "Nearest of all", lines });
    for (const shownTo of ["public", "studio", "private"])
      await addHeads(studio.db, { like: like.slug, count: 10, shownTo });
    const back = await publishGlaze(studio, { name: "Taken back", lines });
    const word = {
      recipeId: back.id,
      forSafety: false,
      why: "It runs.",
      by: studio.ids.author,
      at,
    };
    await setWithdrawn(studio.db, { ...word, withdrawn: true });
  });
  afterAll(() => studio.close());

  const readers = (): Reader[] => [
    undefined,
    { id: studio.ids["other member"], role: "member" },
    { id: studio.ids.author, role: "member" },
    { id: studio.ids.manager, role: "manager" },
  ];

  /** Every head that a reader may know of with its distance, reckoned one by one. */
  async function oneByOne(to: Moles, reader: Reader) {
    const rows = await studio.db
      .select({ slug: recipes.slug, unity })
      .from(recipes)
      .innerJoin(revisions, eq(revisions.recipeId, recipes.id))
      .innerJoin(chemistries, eq(chemistries.revisionId, revisions.id))
      .where(readableBy(reader));
    return rows
      .filter(({ slug }) => slug !== "taken-back")
      .map(({ slug, unity: of }) => ({ slug, distance: apart(to, of as Moles) }))
      .sort((a, b) => a.distance - b.distance);
  }

  const formula = fc
    .tuple(
      ...meltOxides.map((oxide) =>
        fc.double({ min: 0, max: oxide === "SiO2" ? 6 : 1.5, noNaN: true }),
      ),
    )
    .map((moles): Moles => Object.fromEntries(meltOxides.map((oxide, at) => [oxide, moles[at]])));

  it("leave out the recipe itself, what was taken back and what is not the reader's to know of", async () => {
    const to = like.revision.chemistry.unity ?? {};
    const moles = Object.fromEntries(meltOxides.map((oxide) => [oxide, to[oxide]?.value ?? 0]));
    const slugs = async (reader: Reader, besides: string) => {
      const asked = { to: moles, reader, besides, limit: 50 };
      return (await listNearest(studio.db, asked)).map(({ slug }) => slug);
    };
    const [visitor, member, owner, manager] = readers();
    expect((await slugs(visitor, studio.ids.author))[0]).toBe(like.slug);
    expect(await slugs(visitor, like.id)).toHaveLength(10);
    expect(await slugs(member, like.id)).toHaveLength(20);
    expect(await slugs(owner, like.id)).toHaveLength(30);
    expect(await slugs(manager, like.id)).toHaveLength(30);
    expect(await slugs(manager, studio.ids.author)).not.toContain("taken-back");
  });

  it("are those that a look at every recipe finds, for each reader", async () => {
    for (const shownTo of ["public", "studio", "private"])
      await addHeads(studio.db, { like: like.slug, count: 150, shownTo });
    await fc.assert(
      fc.asyncProperty(
        formula,
        fc.nat(3),
        fc.integer({ min: 1, max: mostNearest }),
        async (to, who, limit) => {
          const reader = readers()[who];
          const found = await listNearest(studio.db, { to, reader, besides: like.id, limit });
          const all = (await oneByOne(to, reader)).filter(({ slug }) => slug !== like.slug);
          expect(found.map(({ slug }) => slug)).toEqual(
            all.slice(0, limit).map(({ slug }) => slug),
          );
          for (const { unity, distance } of found)
            expect(apart(to, unity)).toBeCloseTo(distance, 9);
        },
      ),
      { numRuns: 25 },
    );
  });

  it("are read through the index among some thousand", async () => {
    await addHeads(studio.db, { like: like.slug, count: 4_000 });
    await studio.db.execute(sql`analyze`);
    const asked = { to: { SiO2: 3, Al2O3: 0.3 }, reader: undefined, besides: like.id, limit: 10 };
    for (const query of [
      nearOnThePlane(studio.db, asked),
      within(studio.db, { ...asked, reach: 0.05 }),
    ]) {
      const plan = await studio.db.execute(sql`explain ${query.getSQL()}`);
      expect(JSON.stringify(plan)).toContain("chemistries_nearest");
      expect(JSON.stringify(plan)).not.toContain("Seq Scan on chemistries");
    }
  });
});
