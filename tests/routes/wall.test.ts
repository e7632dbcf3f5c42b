import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { addPhoto } from "../../src/db/pictures.ts";
import { fakePicture } from "../camera.ts";
import { putBody } from "../fired.ts";
import { publish } from "../shelf.ts";
import type { TestStudio, Who } from "../studio.ts";
import { openTestWall, type TestWall, type Wall } from "../walls.ts";

const at = new Date("2026-03-01T10:00:00Z");

describe("the wall of tiles", () => {
  let wall: TestWall;
  let studio: TestStudio;
  const slugs = {} as Record<"shown" | "hidden" | "inside" | "matt", string>;
  const bodies = {} as Record<"loft" | "heron", string>;
  beforeAll(async () => {
    wall = await openTestWall();
    studio = wall.studio;
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  it("says that there is nothing, before there is anything", async () => {
    expect(await wall.look()).toEqual({ items: [], next: null });
    expect(await wall.page("/tiles")).toContain("No tile is on record yet");
  });

  describe("with tiles on it", () => {
    beforeAll(async () => {
      bodies.loft = await putBody(studio);
      bodies.heron = await putBody(studio, "Heron porcelain");
      slugs.shown = await publish(studio);
      slugs.hidden = await publish(studio, { shownTo: "private" });
      slugs.inside = await publish(studio, { shownTo: "studio" });
      slugs.matt = await publish(studio, { different: { surface: "dry matt" } });
      await wall.fire("plain", slugs.shown, {
        body: bodies.loft,
        outcome: { surface: "Satin, 50% dry" },
      });
      await wall.fire("crazed", slugs.shown, {
        body: bodies.heron,
        defects: ["crazing", "running"],
      });
      await wall.fire("reduced", slugs.shown, {
        body: bodies.loft,
        cone: "10",
        atmosphere: "reduction",
      });
      await wall.fire("cool", slugs.matt, { body: bodies.loft, cone: "04", defects: ["crawling"] });
      await wall.fire("over", slugs.matt, { over: `${slugs.shown}@1` });
      await wall.fire("wrong", slugs.shown, { body: bodies.loft });
      await wall.fire("private", slugs.hidden, { defects: ["crazing"] });
      await wall.fire("inside", slugs.inside);
      const why = { method: "PUT", json: { why: "It was another glaze." } };
      await studio.send("author", `/tiles/${wall.idOf("wrong")}/withdrawal`, why);
    });

    it("shows what everybody may know of, newest first, without what was withdrawn", async () => {
      expect(await wall.names()).toEqual(["over", "cool", "reduced", "crazed", "plain"]);
    });

    it.each<[Who, string[]]>([
      ["visitor", []],
      ["other member", ["inside"]],
      ["reviewer", ["inside"]],
      ["author", ["inside", "private"]],
      ["manager", ["inside", "private"]],
    ])("shows the %s of the others %j", async (who, more) => {
      const hidden = ["inside", "private", "wrong"];
      expect((await wall.names("", who)).filter((name) => hidden.includes(name))).toEqual(more);
      const crazed = await wall.names("?defect=crazing", who);
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
      expect(await wall.names(`?${query}`)).toEqual(expected);
    });

    it("tells of a tile what there is to know at a glance", async () => {
      const { items } = await wall.look("?defect=crazing");
      expect(items).toEqual([
        {
          id: wall.idOf("crazed"),
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
      const [over] = (await wall.look("?surface=matt&cone=6")).items;
      expect(over).toMatchObject({ layered: true, body: null });
    });

    it("says in words what narrows it, and keeps it in the form", async () => {
      const html = await wall.page("/tiles?cone=6&body=heron-porcelain&defect=crazing");
      expect(html).toContain("Cone 6, on Heron porcelain, crazing.");
      expect(html).toContain('<option value="heron-porcelain" selected="">');
      expect(html).toContain("Shows crazing, running");
      expect(html).toContain("/tiles/sheet?cone=6&amp;body=heron-porcelain&amp;defect=crazing");
      expect(await wall.page("/tiles?defect=dunting")).toContain("No tile fits all of that");
    });

    it("hangs up the first picture that is still there", async () => {
      const hang = (shade: number, alt: string) =>
        addPhoto(studio.db, {
          ...{ tileId: wall.idOf("reduced"), picture: fakePicture(shade), alt },
          ...{ by: studio.ids.author, at },
        });
      await hang(1, "the foot");
      await hang(2, "the whole tile");
      const picture = async () => (await wall.look("?atmosphere=reduction")).items[0]?.picture;
      const { sha256 } = fakePicture(1);
      expect(await picture()).toEqual({
        ...{ sha256, alt: "the foot", width: 40, height: 30 },
        at: `/photos/${sha256}/full`,
      });
      const html = await wall.page("/tiles?atmosphere=reduction");
      expect(html).toMatch(/<img src="[^"]+\/600" srcset="[^"]+"[^>]* width="300" height="400"/);
      const removal = { method: "PUT", json: { why: "A face is in it." } };
      const removed = await studio.send("manager", `/photos/${sha256}/removal`, removal);
      expect(removed.ok).toBe(true);
      expect((await picture())?.alt).toBe("the whole tile");
    });

    it("makes a contact sheet of the same tiles, with what paper has to say", async () => {
      const html = await wall.page("/tiles/sheet?body=loft-stoneware&cone=6");
      expect(html).toContain("Leaf 1 of 1");
      expect(html).toContain("Revision 1");
      expect(html).toContain("On Loft stoneware");
      expect(html).toContain("data-print");
      expect(html).not.toContain('loading="lazy"');
      const json = await studio.json<Wall>("visitor", "/tiles/sheet?cone=6");
      expect(json).toEqual(await wall.look("?cone=6"));
    });
  });
});
