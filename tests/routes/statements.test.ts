import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { statements } from "../engines/open.ts";
import { bringEvidence } from "../evidence.ts";
import { buy, newKey, openMix, tick } from "../mixes.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

/** Pages that list things, or what belongs to a thing, each asked as the manager. */
const pages = [
  "/recipes",
  "/recipes?cone=6&use=decorative",
  "/materials",
  "/tiles",
  "/firings",
  "/buckets",
  "/rounds",
  "/stock",
  "/waiting",
  "/events",
  "/families",
  "/trials",
  "/plans",
  "/shopping",
  "/start",
  "/people",
  "/guide/names",
  "/powder-changes",
] as const;

describe("a page that lists things", () => {
  let studio: TestStudio;
  const before: Record<string, number> = {};
  const after: Record<string, number> = {};

  /** Another of each: a recipe with its tiles, tests and a note, a mix half done, a lot, a plan, a trial. */
  const grow = async () => {
    const slug = await publish(studio);
    await bringEvidence(studio, slug);
    await ask(`/recipes/${slug}/notes`, { text: "Sieve it twice.", blocking: true });
    await ask("/families", { name: `Terns of ${slug}`, recipes: [slug] });
    await ask("/plans", { recipe: slug, grams: "1000" });
    await ask(`/recipes/${slug}/reviews`, { verdict: "remark", reasons: "A second tile first." });
    const lot = await buy(studio, "potash-feldspar");
    const mix = await openMix(studio, slug);
    await tick(studio, "author", mix.id, { n: 1, grams: "400", lot, key: newKey() });
    await ask("/trials", {
      name: `Iron in ${slug}`,
      kind: "ladder",
      base: { lines: [{ part: "base", material: "potash-feldspar", amount: "100" }] },
      ...{ addition: "red-iron-oxide", from: "1", to: "4", steps: 3, spacing: "even" },
    });
  };
  const ask = async (path: string, json: object) => {
    const answer = await studio.send("manager", path, { json });
    if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
  };

  /** How many statements a page takes once what has to be settled is. */
  const count = async (page: string): Promise<number> => {
    await studio.send("manager", page);
    const begun = statements.asked;
    const answer = await studio.send("manager", page);
    expect(answer.status).toBe(200);
    return statements.asked - begun;
  };

  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    // Two of each, so that no list is shorter than its own kind.
    await grow();
    await grow();
    for (const page of pages) before[page] = await count(page);
    for (let more = 0; more < 4; more += 1) await grow();
    for (const page of pages) after[page] = await count(page);
  });
  afterAll(() => studio.close());

  it.each(pages)("%s asks the database as often whether it lists two or six", (page) => {
    expect(before[page]).toBeGreaterThan(1);
    expect(after[page]).toBe(before[page]);
  });
});
