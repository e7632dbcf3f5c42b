import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { LabTriple } from "../../src/chem/plain-colours.ts";
import { addPhoto } from "../../src/db/pictures.ts";
import { tileColours } from "../../src/db/schema/index.ts";
import type { wallTileJson } from "../../src/routes/wall-json.ts";
import { fakePicture } from "../camera.ts";
import { putBody } from "../fired.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Wall = { items: ReturnType<typeof wallTileJson>[]; next: string | null };
type Colour = { lab: LabTriple; from?: "instrument" | "camera" };

const at = new Date("2026-03-01T10:00:00Z");

describe("the wall of tiles", () => {
  let studio: TestStudio;
  const slugs = {} as Record<"shown" | "hidden" | "inside" | "matt", string>;
  const bodies = {} as Record<"loft" | "heron", string>;
  /** What a tile is called here → its id. */
  const ids = new Map<string, string>();

  const fire = async (name: string, slug: string, more: object = {}) => {
    const json = { revision: 1, cone: "6", ...more };
    const answer = await studio.send("author", `/recipes/${slug}/tiles`, { json });
    expect(answer.status).toBe(201);
    ids.set(name, ((await answer.json()) as { id: string }).id);
  };
  const idOf = (name: string): string => ids.get(name) ?? "";
  const measure = (name: string, { lab: [lightness, a, b], from = "instrument" }: Colour) =>
    studio.db.insert(tileColours).values({
      ...{ id: uuidv7(), tileId: idOf(name), lightness, a, b, from },
      ...{ by: studio.ids.author, at },
    });
  const look = (query = "", who: Who = "visitor") => studio.json<Wall>(who, `/tiles${query}`);
  const namesOf = ({ items }: Wall): string[] =>
    items.map(({ id }) => [...ids].find(([, known]) => known === id)?.[0] ?? id);
  const names = async (query = "", who: Who = "visitor") => namesOf(await look(query, who));
  const page = async (path: string) => (await studio.send("visitor", path)).text();

  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  it("says that there is nothing, before there is anything", async () => {
    expect(await look()).toEqual({ items: [], next: null });
    expect(await page("/tiles")).toContain("No tile is on record yet");
  });

  describe("with tiles on it", () => {
    beforeAll(async () => {
      bodies.loft = await putBody(studio);
      bodies.heron = await putBody(studio, "Heron porcelain");
      slugs.shown = await publish(studio);
      slugs.hidden = await publish(studio, { shownTo: "private" });
      slugs.inside = await publish(studio, { shownTo: "studio" });
      slugs.matt = await publish(studio, { different: { surface: "dry matt" } });
      await fire("plain", slugs.shown, {
        body: bodies.loft,
        outcome: { surface: "Satin, 50% dry" },
      });
      await fire("crazed", slugs.shown, { body: bodies.heron, defects: ["crazing", "running"] });
      await fire("reduced", slugs.shown, {
        body: bodies.loft,
        cone: "10",
        atmosphere: "reduction",
      });
      await fire("cool", slugs.matt, { body: bodies.loft, cone: "04", defects: ["crawling"] });
      await fire("over", slugs.matt, { over: `${slugs.shown}@1` });
      await fire("wrong", slugs.shown, { body: bodies.loft });
      await fire("private", slugs.hidden, { defects: ["crazing"] });
      await fire("inside", slugs.inside);
      const why = { method: "PUT", json: { why: "It was another glaze." } };
      await studio.send("author", `/tiles/${idOf("wrong")}/withdrawal`, why);
    });

    it("shows what everybody may know of, newest first, without what was withdrawn", async () => {
      expect(await names()).toEqual(["over", "cool", "reduced", "crazed", "plain"]);
    });

    it.each<[Who, string[]]>([
      ["visitor", []],
      ["other member", ["inside"]],
      ["reviewer", ["inside"]],
      ["author", ["inside", "private"]],
      ["manager", ["inside", "private"]],
    ])("shows the %s of the others %j", async (who, more) => {
      const hidden = ["inside", "private", "wrong"];
      expect((await names("", who)).filter((name) => hidden.includes(name))).toEqual(more);
      const crazed = await names("?defect=crazing", who);
      expect(crazed).toEqual(more.includes("private") ? ["private", "crazed"] : ["crazed"]);
    });

    it.each<[string, string[]]>([
      ["cone=6", ["over", "crazed", "plain"]],
      ["cone=04", ["cool"]],
      ["body=loft-stoneware", ["cool", "reduced", "plain"]],
      ["body=heron-porcelain", ["crazed"]],
      ["defect=crawling", ["cool"]],
      ["defect=none", ["over", "reduced", "plain"]],
      ["defect=dunting", []],
      ["atmosphere=reduction", ["reduced"]],
      ["surface=SATIN", ["plain"]],
      ["surface=50%25+dry", ["plain"]],
      // Where nobody said how a tile came out, as its recipe says.
      ["surface=matt", ["over", "cool"]],
      ["surface=%25", ["plain"]],
      ["cone=6&body=loft-stoneware", ["plain"]],
      ["cone=6&defect=none&surface=dry+matt", ["over"]],
      ["body=loft-stoneware&atmosphere=oxidation&defect=none", ["plain"]],
      ["cone=&body=&surface=&defect=&colour=&colour=&atmosphere=reduction", ["reduced"]],
    ])("narrows by %s", async (query, expected) => {
      expect(await names(`?${query}`)).toEqual(expected);
    });

    it("tells of a tile what there is to know at a glance", async () => {
      const { items } = await look("?defect=crazing");
      expect(items).toEqual([
        {
          id: idOf("crazed"),
          recipe: { slug: slugs.shown, name: expect.stringMatching(/^Slack Water/) },
          revision: 1,
          cone: "6",
          atmosphere: "oxidation",
          outcome: { surface: "" },
          clay: "Heron porcelain",
          body: { slug: "heron-porcelain", name: "Heron porcelain" },
          defects: ["crazing", "running"],
          layered: false,
          firedOn: null,
          at: expect.stringMatching(/Z$/),
          picture: null,
          colour: null,
        },
      ]);
      const [over] = (await look("?surface=matt&cone=6")).items;
      expect(over).toMatchObject({ layered: true, body: null });
    });

    it("says in words what narrows it, and keeps it in the form", async () => {
      const html = await page("/tiles?cone=6&body=heron-porcelain&defect=crazing");
      expect(html).toContain("Cone 6, on Heron porcelain, crazing.");
      expect(html).toContain('<option value="heron-porcelain" selected="">');
      expect(html).toContain("Shows crazing, running");
      expect(html).toContain("/tiles/sheet?cone=6&amp;body=heron-porcelain&amp;defect=crazing");
      expect(await page("/tiles?defect=dunting")).toContain("No tile fits all of that");
    });

    it("says that no tile has a colour yet, and only then", async () => {
      expect(await look("?colour=green")).toEqual({ items: [], next: null });
      expect(await page("/tiles?colour=green")).toContain("No tile has a colour yet");
      // One that the reader may not know of does not count.
      await measure("private", { lab: [50, -30, 20] });
      expect(await page("/tiles?colour=green")).toContain("No tile has a colour yet");
      await measure("plain", { lab: [40, 40, 30] });
      const none = await page("/tiles?colour=green&defect=crazing");
      expect(none).toContain("No tile fits all of that");
    });

    it("hangs up the first picture that is still there", async () => {
      const hang = (shade: number, alt: string) =>
        addPhoto(studio.db, {
          ...{ tileId: idOf("reduced"), picture: fakePicture(shade), alt },
          ...{ by: studio.ids.author, at },
        });
      await hang(1, "the foot");
      await hang(2, "the whole tile");
      const picture = async () => (await look("?atmosphere=reduction")).items[0]?.picture;
      const { sha256 } = fakePicture(1);
      expect(await picture()).toEqual({
        ...{ sha256, alt: "the foot", width: 40, height: 30 },
        at: `/photos/${sha256}/full`,
      });
      const html = await page("/tiles?atmosphere=reduction");
      expect(html).toMatch(/<img src="[^"]+\/600" srcset="[^"]+"[^>]* width="300" height="400"/);
      const removal = { method: "PUT", json: { why: "A face is in it." } };
      const removed = await studio.send("manager", `/photos/${sha256}/removal`, removal);
      expect(removed.ok).toBe(true);
      expect((await picture())?.alt).toBe("the whole tile");
    });

    // Squares of the distance to 50,0,0 by hand: plain 100 + 1600 + 900 = 2600 until it was measured
    // again, then 25; crazed 9 + 16 = 25; cool 4; reduced 0 by its camera, 400 by its instrument.
    it("puts the nearest to a colour first: the newest, an instrument's before a camera's", async () => {
      await measure("plain", { lab: [55, 0, 0] });
      await measure("crazed", { lab: [53, 4, 0], from: "camera" });
      await measure("cool", { lab: [50, 0, 2] });
      await measure("reduced", { lab: [50, 20, 0] });
      await measure("reduced", { lab: [50, 0, 0], from: "camera" });
      await measure("wrong", { lab: [50, 0, 0] });
      expect(await names("?colour=50,0,0")).toEqual(["cool", "crazed", "plain", "reduced"]);
      expect(await names("?colour=50%2C+-0.0%2C+0&body=loft-stoneware")).toEqual([
        "cool",
        "plain",
        "reduced",
      ]);
      // Grey is 56,0,0: plain 1, crazed 9 + 16 = 25, cool 36 + 4 = 40, reduced 36 + 400.
      expect(await names("?colour=Grey")).toEqual(["plain", "crazed", "cool", "reduced"]);
      const { items } = await look("?colour=50,0,0&cone=10");
      expect(items[0]?.colour).toEqual({ lab: [50, 20, 0], from: "instrument" });
      const html = await page("/tiles?colour=&colour=53,4,0");
      expect(html).toContain("L* 53, a* 4, b* 0, from a picture");
      expect(html).toContain('value="53,4,0"');
      expect(html).toContain("whose colour nobody measured are left out");
    });

    it.each<[string, string]>([
      ["cone=6.5", "cone"],
      ["cone=006", "cone"],
      ["body=no-such-body", "body"],
      ["body=Loft+stoneware", "body"],
      [`surface=${"x".repeat(61)}`, "surface"],
      ["defect=sadness", "defect"],
      ["atmosphere=vacuum", "atmosphere"],
      ["colour=mauve-ish", "colour"],
      ["colour=50,0", "colour"],
      ["colour=101,0,0", "colour"],
      ["colour=50,161,0", "colour"],
      ["colour=50,1e2,0", "colour"],
      ["colour=50,NaN,0", "colour"],
      ["colour=blue&colour=50,0,0", "colour"],
      ["after=yesterday", "after"],
      ["after=018f3f3c-0000-7000-8000-00000000000", "after"],
      ["after=1e999~018f3f3c-0000-7000-8000-000000000000&colour=blue", "after"],
      ["after=4~018f3f3c-0000-7000-8000-000000000000", "after"],
      ["after=018f3f3c-0000-7000-8000-000000000000&colour=blue", "after"],
    ])("refuses %s by its place, on the wall and on the sheet", async (query, path) => {
      for (const room of ["/tiles", "/tiles/sheet"]) {
        const answer = await studio.send("visitor", `${room}?${query}`, {
          accept: "application/json",
        });
        expect(answer.status).toBe(422);
        const { errors } = (await answer.json()) as { errors: { path: string }[] };
        expect(errors.map((fault) => fault.path)).toEqual([path]);
      }
    });

    it("keeps what was typed beside what is wrong with it", async () => {
      const answer = await studio.send("visitor", "/tiles?cone=6&colour=&colour=50,0");
      expect(answer.status).toBe(422);
      const html = await answer.text();
      expect(html).toContain('href="#field-colour"');
      expect(html).toContain('value="50,0"');
      expect(html).toContain('<option value="6" selected="">');
    });

    it("makes a contact sheet of the same tiles, with what paper has to say", async () => {
      const html = await page("/tiles/sheet?body=loft-stoneware&cone=6");
      expect(html).toContain("Leaf 1 of 1");
      expect(html).toContain("Revision 1");
      expect(html).toContain("On Loft stoneware");
      expect(html).toContain("data-print");
      expect(html).not.toContain('loading="lazy"');
      const json = await studio.json<Wall>("visitor", "/tiles/sheet?cone=6");
      expect(json).toEqual(await look("?cone=6"));
    });
  });

  describe("longer than a page", () => {
    const many = 205;
    const fired: string[] = [];
    beforeAll(async () => {
      const slug = await publish(studio);
      for (let number = 0; number < many; number += 1) {
        const name = `many ${number}`;
        await fire(name, slug, { cone: "8" });
        fired.push(idOf(name));
        // Pairs are equally far, so that the place has to break ties.
        await measure(name, { lab: [50, Math.floor(number / 2) / 3, 0] });
      }
    });

    const walk = async (path: string): Promise<string[][]> => {
      const pages: string[][] = [];
      let next: string | null = "";
      while (next !== null) {
        const after: string = next === "" ? "" : `&after=${encodeURIComponent(next)}`;
        const wall: Wall = await studio.json<Wall>("visitor", `${path}${after}`);
        pages.push(wall.items.map(({ id }) => id));
        next = wall.next;
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
      const first = await look("?cone=8");
      await fire("late", await publish(studio), { cone: "8" });
      const second = await look(`?cone=8&after=${first.next}`);
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
      const html = await page("/tiles?cone=8&defect=none");
      const more = /href="([^"]+)" rel="next"/.exec(html)?.[1]?.replaceAll("&amp;", "&") ?? "";
      expect(more).toMatch(/^\/tiles\?cone=8&defect=none&after=/);
      expect(await page(more)).toContain("Cone 8, without a defect.");
    });
  });
});
