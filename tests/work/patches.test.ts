import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { linearOfSrgb } from "../../src/chem/colour.ts";
import { readPatches } from "../../src/work/patches.ts";

const plain = (background: string, width = 300, height = 300) =>
  sharp({ create: { width, height, channels: 3, background } });

describe("reading the light of places in a picture", () => {
  it("takes the place that was asked for, and moves a square at the edge inside", async () => {
    const right = await plain("#5d8a6a", 150, 300).png().toBuffer();
    const picture = await plain("#808080")
      .composite([{ input: right, left: 150, top: 0 }])
      .png()
      .toBuffer();
    const [left, glaze, corner] = await readPatches(picture, [
      { x: 0.25, y: 0.5 },
      { x: 0.75, y: 0.5 },
      { x: 1, y: 1 },
    ]);
    expect(left?.light.red).toBeCloseTo(linearOfSrgb([128, 128, 128]).red, 9);
    expect(glaze?.light.green).toBeCloseTo(linearOfSrgb([0x5d, 0x8a, 0x6a]).green, 9);
    expect(corner).toEqual(glaze);
  });

  // Half black and half white sends back half the light, which is sRGB 188 and not 128.
  it("averages light, not the numbers in the file", async () => {
    const stripes = Buffer.alloc(300 * 300 * 3);
    for (let at = 0; at < stripes.length; at += 3)
      stripes.fill(Math.floor(at / 3) % 2 === 0 ? 255 : 0, at, at + 3);
    const raw = { width: 300, height: 300, channels: 3 as const };
    const picture = await sharp(stripes, { raw }).png().toBuffer();
    const [grey] = await readPatches(picture, [{ x: 0.5, y: 0.5 }]);
    expect(grey?.light.red).toBeCloseTo(0.5, 6);
  });

  it.each<[string, "bright" | "dark" | null]>([
    ["#ffffff", "bright"],
    ["#ff8080", "bright"],
    ["#020202", "dark"],
    ["#202020", null],
    ["#e0e0e0", null],
  ])("says whether %s is at an end of what a file can hold: %s", async (colour, end) => {
    const [patch] = await readPatches(await plain(colour).png().toBuffer(), [{ x: 0.5, y: 0.5 }]);
    expect(patch?.end).toBe(end);
  });

  it("reads the smallest picture too", async () => {
    const [patch] = await readPatches(await plain("#808080", 1, 1).png().toBuffer(), [
      { x: 0, y: 0 },
    ]);
    expect(patch?.light.blue).toBeCloseTo(linearOfSrgb([128, 128, 128]).blue, 9);
  });
});
