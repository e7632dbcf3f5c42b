import pLimit from "p-limit";
import { sha256 } from "../db/digests.ts";
import { type NewPicture, pictureWidths } from "../db/pictures.ts";
import { isTaken, kindOfPicture, type PictureKind } from "./picture-kinds.ts";

/** The master's longest side, and what a picture may have before it is made smaller, in pixels. */
const longestSide = 2400;
const mostPixels = 50e6;

// A small machine serves the studio beside this: two pictures at a time, a thread each, and nothing
// kept from one to the next.
export const twoAtATime = pLimit(2);

/** A progressive picture is unpacked as a whole, at up to 8 bytes a pixel: of large ones one at a time. */
const largeInTurn = pLimit(1);
const manyPixels = 20e6;

/** Loaded with the first picture, since a start needs none. */
export async function loadSharp() {
  const { default: sharp } = await import("sharp");
  sharp.cache(false);
  sharp.concurrency(1);
  return sharp;
}

export type MadePicture =
  | { kind: "made"; picture: NewPicture }
  | { kind: "not-taken"; is: Exclude<PictureKind, "jpeg" | "png" | "webp"> }
  | { kind: "empty" }
  | { kind: "too-many-pixels"; megapixels: number }
  | { kind: "broken" };

/**
 * A camera's file made into what is kept: upright, in sRGB, at most 2400 pixels at its longest
 * side, and without anything that it carried besides the picture (EXIF with place and camera, XMP,
 * colour profile); then the same at each of the smaller widths.
 *
 * All of it is JPEG, at quality 85: old tablets, printers and photo programs open it, and photographs
 * of glazes have no use for transparency, which is laid on white.
 *
 * @returns `not-taken`: neither JPEG, PNG nor WebP by its bytes. `too-many-pixels`: over 50
 *   million, by what the file says of itself; nothing was unpacked. `broken`: cut off or damaged.
 */
export function makePicture(bytes: Uint8Array): Promise<MadePicture> {
  if (bytes.length === 0) return Promise.resolve({ kind: "empty" });
  const is = kindOfPicture(bytes);
  if (!isTaken(is)) return Promise.resolve({ kind: "not-taken", is });
  return twoAtATime(() => make(bytes));
}

async function make(bytes: Uint8Array): Promise<MadePicture> {
  const size = await sizeOf(bytes);
  if (!size) return { kind: "broken" };
  const pixels = size.width * size.height;
  if (pixels > mostPixels) return { kind: "too-many-pixels", megapixels: pixels / 1e6 };
  const making = () => makeMaster(bytes);
  const master = await (pixels > manyPixels ? largeInTurn(making) : making());
  if (!master) return { kind: "broken" };
  const smaller = await smallerThan(master);
  return { kind: "made", picture: { sha256: sha256(master.bytes), ...master, smaller } };
}

/**
 * A master that was made before, with the smaller widths made of it again, or undefined where the
 * bytes are no whole JPEG.
 */
export function remakePicture(bytes: Uint8Array): Promise<NewPicture | undefined> {
  return twoAtATime(async () => {
    const size = kindOfPicture(bytes) === "jpeg" ? await sizeOf(bytes) : undefined;
    if (!size || size.width > longestSide || size.height > longestSide) return undefined;
    const master = { bytes, ...size };
    const smaller = await smallerThan(master).catch(() => undefined);
    return smaller && { sha256: sha256(bytes), ...master, smaller };
  });
}

async function smallerThan(master: { bytes: Uint8Array; width: number }) {
  const smaller = [];
  for (const width of pictureWidths) {
    const bytes = width < master.width ? await narrowed(master.bytes, width) : master.bytes;
    smaller.push({ width, bytes });
  }
  return smaller;
}

/** What the file says of itself, or undefined where it cannot be read. */
async function sizeOf(bytes: Uint8Array) {
  const sharp = await loadSharp();
  try {
    const { width, height } = await sharp(bytes, { limitInputPixels: false }).metadata();
    return { width, height };
  } catch {
    return undefined;
  }
}

const careful = {
  limitInputPixels: mostPixels,
  failOn: "error",
  sequentialRead: true,
} as const;

/** The master, or undefined where the file turns out to be damaged. */
async function makeMaster(bytes: Uint8Array) {
  const sharp = await loadSharp();
  try {
    const { data, info } = await sharp(bytes, careful)
      .autoOrient()
      .resize({ width: longestSide, height: longestSide, fit: "inside", withoutEnlargement: true })
      .flatten({ background: "#ffffff" })
      .toColourspace("srgb")
      .jpeg(asKept)
      .toBuffer({ resolveWithObject: true });
    return { bytes: data, width: info.width, height: info.height };
  } catch {
    return undefined;
  }
}

async function narrowed(master: Uint8Array, width: number): Promise<Uint8Array> {
  const sharp = await loadSharp();
  return sharp(master, careful).resize({ width }).jpeg(asKept).toBuffer();
}

const asKept = { quality: 85, mozjpeg: true };
