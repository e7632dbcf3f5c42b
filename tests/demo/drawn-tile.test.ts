import { describe, expect, it } from "vitest";
import { drawTile } from "../../src/demo/drawn-tile.ts";
import { demoGlazes } from "../../src/demo/glazes.ts";
import { mulberry32, seedOf } from "../../src/demo/random.ts";
import { letterPath } from "../../src/demo/stroke-letters.ts";
import { tileLooks } from "../../src/demo/tile-looks.ts";
import { demoTiles } from "../../src/demo/tiles.ts";

describe("a drawn tile", () => {
  const draw = (seed: string, cone = "6") => {
    const look = tileLooks["Mackerel Sky"];
    if (!look) throw new Error("there is no look to draw");
    return drawTile({ look, clay: "Loft stoneware", cone, seed });
  };

  it("is the same for the same tile and another for another", () => {
    expect(draw("first")).toBe(draw("first"));
    expect(draw("first")).not.toBe(draw("second"));
  });

  it("says in strokes that it is drawn, and which cone it had", () => {
    const words = letterPath("drawn for the demo", { x: 160, y: 845, size: 3.4 });
    expect(draw("first")).toContain(words);
    expect(draw("first", "7")).toContain(letterPath("7", { x: 140, y: 715, size: 6 }));
    expect(() => letterPath("ß", { x: 0, y: 0, size: 1 })).toThrow("no stroke");
  });

  it("has a look for every glaze that has a tile, and tiles of published revisions only", () => {
    for (const { glaze, number, firedOn } of demoTiles) {
      expect(tileLooks[glaze], glaze).toBeDefined();
      const published = demoGlazes.find(({ name }) => name === glaze)?.revisions[number - 1]?.at;
      expect(Date.parse(firedOn), `${glaze} ${number}`).toBeGreaterThan(
        Date.parse(published ?? ""),
      );
    }
    const firings = demoTiles.map(({ firedOn }) => firedOn);
    expect(firings).toEqual([...firings].sort());
    expect(demoTiles.length).toBeGreaterThanOrEqual(28);
  });
});

describe("random numbers from a seed", () => {
  it("hash a text to the seed that FNV-1a gives", () => {
    // FNV-1a, 32 bits: "a" is e40c292c and "foobar" bf9cf968, from the authors' test vectors
    // (Landon Curt Noll, "FNV Hash", test suite of fnv32a).
    expect(seedOf("a")).toBe(0xe40c292c);
    expect(seedOf("foobar")).toBe(0xbf9cf968);
    expect(seedOf("")).toBe(0x811c9dc5);
  });

  it("lie from 0 to below 1 and spread evenly", () => {
    const random = mulberry32(1);
    const drawn = Array.from({ length: 10_000 }, random);
    expect(Math.min(...drawn)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...drawn)).toBeLessThan(1);
    const tenths = drawn.map((number) => Math.floor(number * 10));
    for (let tenth = 0; tenth < 10; tenth += 1) {
      // 1,000 are expected in each; 150 away would be five standard deviations.
      expect(Math.abs(tenths.filter((each) => each === tenth).length - 1000)).toBeLessThan(150);
    }
  });
});
