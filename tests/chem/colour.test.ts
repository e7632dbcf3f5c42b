import { describe, expect, it } from "vitest";
import {
  deltaE00,
  differenceWords,
  hexOf,
  labOfLinear,
  labThroughNeutral,
  linearOfSrgb,
  luminanceOf,
} from "../../src/chem/colour.ts";
import { colourDifference, driftOf } from "../../src/chem/colour-comparing.ts";

const labOfSrgb = (...rgb: [number, number, number]) => labOfLinear(linearOfSrgb(rgb));

describe("colours in L*a*b* under D50", () => {
  // W3C "CSS Color Module Level 4", the named colours in lab(), whose white is D50.
  it.each<[[number, number, number], [number, number, number]]>([
    [
      [255, 0, 0],
      [54.29, 80.8, 69.89],
    ],
    [
      [0, 128, 0],
      [46.28, -47.55, 48.59],
    ],
    [
      [0, 0, 255],
      [29.57, 68.29, -112.03],
    ],
    [
      [255, 255, 255],
      [100, 0, 0],
    ],
  ])("gives sRGB %j as %j", (rgb, [lightness, a, b]) => {
    const lab = labOfSrgb(...rgb);
    expect(lab.lightness).toBeCloseTo(lightness, 1);
    expect(lab.a).toBeCloseTo(a, 1);
    expect(lab.b).toBeCloseTo(b, 1);
  });

  it("goes back to what a screen shows", () => {
    expect(hexOf(labOfSrgb(93, 138, 106))).toBe("#5d8a6a");
    expect(hexOf({ lightness: 60, a: 120, b: 90 })).toMatch(/^#[0-9a-f]{6}$/);
  });

  // CIE 15:2004: a perfect grey card of 18.42 % has L* 50.
  it("knows how much light a lightness stands for", () => {
    expect(luminanceOf(50)).toBeCloseTo(0.1842, 4);
    expect(luminanceOf(100)).toBe(1);
    expect(luminanceOf(8)).toBeCloseTo((8 * 27) / 24389, 6);
  });
});

describe("the difference between two colours", () => {
  const grey = { lightness: 50, a: 0, b: 0 };

  it("is the same from either side, and none from itself", () => {
    const other = { lightness: 61, a: -12, b: 20 };
    expect(deltaE00(grey, grey)).toBe(0);
    expect(deltaE00(grey, other)).toBeCloseTo(deltaE00(other, grey), 12);
  });

  it.each<[number, string]>([
    [0.99, "hardly to be seen"],
    [0.9999, "to be seen side by side"],
    [1, "to be seen side by side"],
    [1.99, "to be seen side by side"],
    [2, "plain"],
    [5, "plain"],
    [5.01, "another colour"],
  ])("of %d is %s", (deltaE, words) => {
    expect(differenceWords(deltaE)).toBe(words);
  });
});

describe("a colour through a neutral patch", () => {
  it("does not change with the tint of the lamp or the exposure", () => {
    const neutral = { red: 0.18, green: 0.18, blue: 0.18 };
    const spot = { red: 0.1, green: 0.25, blue: 0.2 };
    const plain = labThroughNeutral({ neutral, spot, neutralLightness: 50 });
    const lamp = { red: 1.4, green: 0.9, blue: 0.5 };
    const lit = ({ red, green, blue }: typeof spot) => ({
      red: red * lamp.red,
      green: green * lamp.green,
      blue: blue * lamp.blue,
    });
    const tinted = labThroughNeutral({
      neutral: lit(neutral),
      spot: lit(spot),
      neutralLightness: 50,
    });
    if (plain.kind !== "colour" || tinted.kind !== "colour") throw new Error("no colour");
    expect(deltaE00(plain.lab, tinted.lab)).toBeLessThan(1e-9);
  });

  it("gives the patch the lightness that it is said to have", () => {
    const patch = { red: 0.3, green: 0.2, blue: 0.1 };
    const read = labThroughNeutral({ neutral: patch, spot: patch, neutralLightness: 73 });
    if (read.kind !== "colour") throw new Error("no colour");
    expect(read.lab.lightness).toBeCloseTo(73, 3);
    expect(Math.hypot(read.lab.a, read.lab.b)).toBeLessThan(0.01);
  });

  it("says where there is nothing to scale by, and what is over white", () => {
    const black = { red: 0.1, green: 0, blue: 0.1 };
    const spot = { red: 0.5, green: 0.5, blue: 0.5 };
    const given = { spot, neutralLightness: 50 };
    expect(labThroughNeutral({ ...given, neutral: black })).toEqual({ kind: "no-light" });
    const dim = { red: 0.05, green: 0.05, blue: 0.05 };
    expect(labThroughNeutral({ ...given, neutral: dim })).toMatchObject({ kind: "over-white" });
  });
});

describe("colours of tiles", () => {
  const read = (from: "instrument" | "camera", lightness: number) => ({
    [from]: { lightness, a: 0, b: 0, from },
  });

  it("are compared as they were read, the instrument first", () => {
    const both = { ...read("instrument", 50), ...read("camera", 70) };
    expect(colourDifference(both, both)).toEqual({
      kind: "differs",
      deltaE: 0,
      from: "instrument",
    });
    expect(colourDifference(both, read("camera", 70))).toMatchObject({ deltaE: 0, from: "camera" });
    expect(colourDifference(read("instrument", 50), read("camera", 50))).toEqual({
      kind: "read-otherwise",
    });
    expect(colourDifference({}, both)).toEqual({ kind: "no-colour" });
  });

  it("go from the first proof tile that has one, oldest first", () => {
    const on = (day: number) => new Date(Date.UTC(2026, 2, day));
    const tiles = [
      { id: "c", on: on(9), colours: read("instrument", 52) },
      { id: "a", on: on(1), colours: {} },
      { id: "b", on: on(5), colours: read("instrument", 50) },
    ];
    const { inOrder, drift } = driftOf(tiles);
    expect(inOrder.map(({ id }) => id)).toEqual(["a", "b", "c"]);
    expect(drift?.first.id).toBe("b");
    expect(drift?.later.map(({ tile }) => tile.id)).toEqual(["c"]);
    expect(driftOf([{ id: "a", on: on(1), colours: {} }]).drift).toBeUndefined();
  });
});
