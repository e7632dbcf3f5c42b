import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish } from "../shelf.ts";
import type { TestStudio } from "../studio.ts";
import { openTestWall, type TestWall, type Wall } from "../walls.ts";

describe("a wall longer than a page", () => {
  let wall: TestWall;
  let studio: TestStudio;
  const many = 205;
  const fired: string[] = [];
  beforeAll(async () => {
    wall = await openTestWall();
    studio = wall.studio;
    const slug = await publish(studio);
    for (let number = 0; number < many; number += 1) {
      fired.push(await wall.fire(`many ${number}`, slug, { cone: "8" }));
      // Pairs are equally far, so that the place has to break ties.
      await wall.measure(`many ${number}`, [50, Math.floor(number / 2) / 3, 0]);
    }
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const walk = async (path: string): Promise<string[][]> => {
    const pages: string[][] = [];
    let next: string | null = "";
    while (next !== null) {
      const after: string = next === "" ? "" : `&after=${encodeURIComponent(next)}`;
      const answer: Wall = await studio.json<Wall>("visitor", `${path}${after}`);
      pages.push(answer.items.map(({ id }) => id));
      next = answer.next;
    }
    return pages;
  };

  it.each(["/tiles", "/tiles/sheet"])(
    "goes on page by page without gaps or doubles: %s",
    async (path) => {
      const pages = await walk(`${path}?cone=8`);
      expect(pages.map((each) => each.length)).toEqual([60, 60, 60, 25]);
      expect(pages.flat()).toEqual([...fired].reverse());
    },
  );

  it("stays where it was when a tile comes in meanwhile", async () => {
    const first = await wall.look("?cone=8");
    await wall.fire("late", await publish(studio), { cone: "8" });
    const second = await wall.look(`?cone=8&after=${first.next}`);
    expect(second.items.map(({ id }) => id)).toEqual([...fired].reverse().slice(60, 120));
  });

  it("goes through the nearest 200 in the order of colours, and no further", async () => {
    const pages = await walk("/tiles?cone=8&colour=50,0,0");
    expect(pages.map((each) => each.length)).toEqual([60, 60, 60, 20]);
    const byHand = fired.map((id, number) => ({ id, number: Math.floor(number / 2) }));
    byHand.sort((one, other) => one.number - other.number || (one.id < other.id ? 1 : -1));
    expect(pages.flat()).toEqual(byHand.slice(0, 200).map(({ id }) => id));
  });

  it("keeps what was asked on the way to more", async () => {
    const html = await wall.page("/tiles?cone=8&defect=none");
    const more = /href="([^"]+)" rel="next"/.exec(html)?.[1]?.replaceAll("&amp;", "&") ?? "";
    expect(more).toMatch(/^\/tiles\?cone=8&defect=none&after=/);
    expect(await wall.page(more)).toContain("Cone 8, without a defect.");
  });
});
