import { converter } from "culori";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { deltaE00, labOfLinear, linearOfSrgb } from "../../src/chem/colour.ts";
import { kindOfPicture } from "../../src/work/picture-kinds.ts";
import { makePicture } from "../../src/work/pictures.ts";
import {
  cameraJpeg,
  cutOff,
  halves,
  heldJpeg,
  hugePng,
  notTaken,
  wideGamutPng,
} from "../camera.ts";

const made = async (bytes: Uint8Array) => {
  const picture = await makePicture(bytes);
  if (picture.kind !== "made") throw new Error(`not made but ${picture.kind}`);
  return picture.picture;
};

/** The colour at a place of a picture, as red, green and blue. */
async function colourAt(bytes: Uint8Array, left: number, top: number): Promise<number[]> {
  const one = sharp(bytes).extract({ left, top, width: 1, height: 1 }).removeAlpha();
  return [...(await one.raw().toBuffer())];
}

const isRed = ([r = 0, g = 255, b = 255]: number[]) => r > 150 && g < 80 && b < 80;

describe("making a picture", () => {
  it("starts from a file that does carry place, camera and profile", async () => {
    const carried = await sharp(await cameraJpeg({ orientation: 6 })).metadata();
    const exif = carried.exif?.toString("latin1") ?? "";
    for (const word of ["Netloft Optics", "Rukmini Vale", "NL-0042-1177", "NL-LENS-0815"])
      expect(exif).toContain(word);
    expect(carried.xmp).toBeDefined();
    expect(carried.icc).toBeDefined();
    expect(carried.orientation).toBe(6);
  });

  it("keeps nothing but the picture, at every width", async () => {
    const { bytes, smaller } = await made(await cameraJpeg({ orientation: 6 }));
    for (const kept of [bytes, ...smaller.map((size) => size.bytes)]) {
      const { exif, icc, xmp, iptc, orientation, format, space } = await sharp(kept).metadata();
      expect({ exif, icc, xmp, iptc, orientation }).toEqual({});
      expect({ format, space }).toEqual({ format: "jpeg", space: "srgb" });
      expect(Buffer.from(kept).toString("latin1")).not.toMatch(
        /Exif|GPS|Netloft|Rukmini|NL-0042|NL-LENS|adobe:ns/,
      );
    }
  });

  // The left half is red as the sensor saw it. Orientation 6 is shown turned a quarter clockwise
  // (CIPA DC-008, Exif 2.3, tag 274), which brings the left side to the top.
  it("turns the picture upright before it forgets how it was held", async () => {
    const { bytes, width, height } = await made(await cameraJpeg({ orientation: 6 }));
    expect([width, height]).toEqual([480, 640]);
    expect(isRed(await colourAt(bytes, 240, 20))).toBe(true);
    expect(isRed(await colourAt(bytes, 240, 620))).toBe(false);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])("turns EXIF orientation %i upright", async (orientation) => {
    const held = await heldJpeg(orientation);
    const carried = await sharp(held).metadata();
    expect(carried.orientation).toBe(orientation);
    expect([carried.width, carried.height]).toEqual(orientation < 5 ? [80, 60] : [60, 80]);
    const { bytes, width, height } = await made(held);
    expect([width, height]).toEqual([80, 60]);
    const corners = await Promise.all(
      [
        [10, 10],
        [70, 10],
        [10, 50],
        [70, 50],
      ].map(([left = 0, top = 0]) => colourAt(bytes, left, top)),
    );
    const strongest = corners.map((rgb) =>
      Math.min(...rgb) > 230 ? "white" : ["red", "green", "blue"][rgb.indexOf(Math.max(...rgb))],
    );
    expect(strongest).toEqual(["red", "green", "blue", "white"]);
  });

  // The expected colours come from culori, by the definition of Display P3 in CSS Color Module
  // Level 4; they all lie within sRGB.
  it.each<[number, number, number]>([
    [120, 150, 110],
    [176, 120, 60],
    [70, 90, 120],
    [200, 190, 170],
  ])("brings a wide-gamut %i, %i, %i to sRGB within ΔE 2", async (red, green, blue) => {
    const wide = await wideGamutPng([red, green, blue]);
    expect([...(await sharp(wide, { ignoreIcc: true }).raw().toBuffer())].slice(0, 3)).toEqual([
      red,
      green,
      blue,
    ]);
    const { l, a, b } = converter("lab")({
      ...{ mode: "p3", r: red / 255, g: green / 255, b: blue / 255 },
    });
    const [r = 0, g = 0, bl = 0] = await colourAt((await made(wide)).bytes, 32, 32);
    const kept = labOfLinear(linearOfSrgb([r, g, bl]));
    expect(deltaE00(kept, { lightness: l, a, b })).toBeLessThan(2);
    const unconverted = labOfLinear(linearOfSrgb([red, green, blue]));
    expect(deltaE00(unconverted, { lightness: l, a, b })).toBeGreaterThan(0.5);
  });

  it("brings colours of another profile to sRGB before it drops the profile", async () => {
    const wide = await halves(64, 64).withIccProfile("p3").png().toBuffer();
    const [raw = 0] = await sharp(wide, { ignoreIcc: true }).raw().toBuffer();
    const [red = 0, green = 0] = await colourAt((await made(wide)).bytes, 8, 8);
    expect(Math.abs(raw - 200)).toBeGreaterThan(10);
    expect(Math.abs(red - 200)).toBeLessThan(6);
    expect(Math.abs(green - 30)).toBeLessThan(8);
  });

  it("lays what is transparent on white", async () => {
    const clear = { r: 0, g: 0, b: 0, alpha: 0 };
    const png = sharp({ create: { width: 20, height: 20, channels: 4, background: clear } }).png();
    expect(await colourAt((await made(await png.toBuffer())).bytes, 10, 10)).toEqual([
      255, 255, 255,
    ]);
  });

  it.each<[number, number, [number, number], number[]]>([
    [4000, 3000, [2400, 1800], [200, 600, 1200]],
    [1000, 3000, [800, 2400], [200, 600, 800]],
    [150, 90, [150, 90], [150, 150, 150]],
  ])(
    "makes %i × %i into a master and widths that enlarge nothing",
    async (w, h, master, widths) => {
      const { width, height, bytes, smaller } = await made(
        await cameraJpeg({ width: w, height: h }),
      );
      expect([width, height]).toEqual(master);
      expect(await sharp(bytes).metadata()).toMatchObject({ width, height });
      expect(smaller.map((size) => size.width)).toEqual([200, 600, 1200]);
      const real = await Promise.all(smaller.map((size) => sharp(size.bytes).metadata()));
      expect(real.map((size) => size.width)).toEqual(widths);
    },
  );

  it.each(["jpeg", "png", "webp"] as const)("takes %s", async (format) => {
    const bytes = await halves(300, 200).toFormat(format).toBuffer();
    expect(kindOfPicture(bytes)).toBe(format);
    expect(await made(bytes)).toMatchObject({ width: 300, height: 200 });
  });

  it("makes the same picture of the same file each time", async () => {
    const bytes = await cameraJpeg();
    expect((await made(bytes)).sha256).toBe((await made(bytes)).sha256);
  });

  it.each(["svg", "gif", "heic", "avif"] as const)("does not take %s", async (is) => {
    expect(await makePicture(notTaken[is])).toEqual({ kind: "not-taken", is });
  });

  it("does not take text, nothing, or what was cut off", async () => {
    expect(await makePicture(notTaken.text)).toEqual({ kind: "not-taken", is: "unknown" });
    expect(await makePicture(new Uint8Array())).toEqual({ kind: "empty" });
    for (const format of ["jpeg", "png", "webp"] as const) {
      const whole = await halves(900, 700).toFormat(format).toBuffer();
      expect(await makePicture(cutOff(whole)), format).toEqual({ kind: "broken" });
    }
  });

  it("does not unpack sixty million pixels", async () => {
    const bomb = hugePng(10_000, 6_000);
    expect(bomb.length).toBeLessThan(50_000);
    expect(await makePicture(bomb)).toEqual({ kind: "too-many-pixels", megapixels: 60 });
  });

  it("goes on after a file that it could not read", async () => {
    const whole = await cameraJpeg();
    const results = await Promise.all(
      [cutOff(whole), whole, cutOff(whole), cutOff(whole), whole].map(makePicture),
    );
    expect(results.map(({ kind }) => kind)).toEqual(["broken", "made", "broken", "broken", "made"]);
  });
});
