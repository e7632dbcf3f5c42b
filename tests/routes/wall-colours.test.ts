import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish } from "../shelf.ts";
import type { TestStudio } from "../studio.ts";
import { openTestWall, type TestWall } from "../walls.ts";

describe("the wall in the order of colours", () => {
  let wall: TestWall;
  let studio: TestStudio;
  beforeAll(async () => {
    wall = await openTestWall();
    studio = wall.studio;
    const slug = await publish(studio);
    await wall.fire("plain", slug);
    await wall.fire("crazed", slug, { defects: ["crazing"] });
    await wall.fire("reduced", slug, { cone: "10", atmosphere: "reduction" });
    await wall.fire("cool", slug, { cone: "04" });
    await wall.fire("unmeasured", slug);
    await wall.fire("wrong", slug);
    await wall.fire("private", await publish(studio, { shownTo: "private" }));
    const why = { method: "PUT", json: { why: "It was another glaze." } };
    await studio.send("author", `/tiles/${wall.idOf("wrong")}/withdrawal`, why);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  it("says that no tile has a colour yet, and only then", async () => {
    expect(await wall.look("?colour=green")).toEqual({ items: [], next: null });
    expect(await wall.page("/tiles?colour=green")).toContain("No tile has a colour yet");
    // One that the reader may not know of does not count.
    await wall.measure("private", [50, -30, 20]);
    expect(await wall.page("/tiles?colour=green")).toContain("No tile has a colour yet");
    await wall.measure("plain", [40, 40, 30]);
    const none = await wall.page("/tiles?colour=green&defect=crazing");
    expect(none).toContain("No tile fits all of that");
  });

  // Squares of the distance to 50,0,0 by hand: plain 100 + 1600 + 900 = 2600 until it was measured
  // again, then 25; crazed 9 + 16 = 25; cool 4; reduced 0 by its camera, 400 by its instrument.
  it("puts the nearest to a colour first: the newest, an instrument's before a camera's", async () => {
    await wall.measure("plain", [55, 0, 0]);
    await wall.measure("crazed", [53, 4, 0], "camera");
    await wall.measure("cool", [50, 0, 2]);
    await wall.measure("reduced", [50, 20, 0]);
    await wall.measure("reduced", [50, 0, 0], "camera");
    await wall.measure("wrong", [50, 0, 0]);
    expect(await wall.names("?colour=50,0,0")).toEqual(["cool", "crazed", "plain", "reduced"]);
    expect(await wall.names("?colour=50%2C+%E2%88%920.0%2C+0&defect=none")).toEqual([
      "cool",
      "plain",
      "reduced",
    ]);
    // Grey is 56,0,0: plain 1, crazed 9 + 16 = 25, cool 36 + 4 = 40, reduced 36 + 400.
    expect(await wall.names("?colour=Grey")).toEqual(["plain", "crazed", "cool", "reduced"]);
    const { items } = await wall.look("?colour=50,0,0&cone=10");
    expect(items[0]?.colour).toEqual({ lab: [50, 20, 0], from: "instrument" });
    const html = await wall.page("/tiles?colour=&colour=53,4,0");
    expect(html).toContain("L* 53.00, a* 4.00, b* 0.00, from a picture: for comparing only");
    expect(html).toContain('value="53,4,0"');
    expect(html).toContain("Tiles without a colour are left out");
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
});
