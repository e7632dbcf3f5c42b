import { type LinearRgb, linearOfSrgb } from "../chem/colour.ts";
import { loadSharp, twoAtATime } from "./pictures.ts";

/** A place in a picture as shares of its width and height, from the left and from the top. */
export type Place = { x: number; y: number };

/**
 * What a square sends back. `end`: so bright that a channel is at its end, which hides the colour,
 * or so dark that there is hardly one.
 */
export type Patch = { light: LinearRgb; end: "bright" | "dark" | null };

/** The side of the square that is averaged, as a share of the picture's shorter side. */
const sideShare = 1 / 30;

/** Channels of 0 to 255 beyond which a camera says nothing more of the light. */
const brightest = 250;
const darkest = 5;

/**
 * The light of small squares of a kept picture, each averaged in linear light so that grain and
 * speckles weigh as they do to the eye. A square at the edge is moved inside.
 *
 * @param bytes a picture as it is kept: upright and in sRGB.
 */
export const readPatches = (bytes: Uint8Array, places: readonly Place[]): Promise<Patch[]> =>
  twoAtATime(async () => {
    const sharp = await loadSharp();
    const { data, info } = await sharp(bytes)
      .removeAlpha()
      .toColourspace("srgb")
      .raw()
      .toBuffer({ resolveWithObject: true });
    return places.map((place) => patchAt(data, info, place));
  });

type Size = { width: number; height: number; channels: number };

function patchAt(pixels: Uint8Array, { width, height, channels }: Size, { x, y }: Place): Patch {
  const side = Math.max(1, Math.round(Math.min(width, height) * sideShare));
  const left = startOf(x * width, side, width);
  const top = startOf(y * height, side, height);
  const light = { red: 0, green: 0, blue: 0 };
  const mean = [0, 0, 0];
  const share = 1 / (side * side);
  for (let row = top; row < top + side; row += 1) {
    for (let column = left; column < left + side; column += 1) {
      const at = (row * width + column) * channels;
      const [red = 0, green = 0, blue = 0] = pixels.subarray(at, at + 3);
      const here = linearOfSrgb([red, green, blue]);
      light.red += here.red * share;
      light.green += here.green * share;
      light.blue += here.blue * share;
      [red, green, blue].forEach((value, channel) => {
        mean[channel] = (mean[channel] ?? 0) + value * share;
      });
    }
  }
  const most = Math.max(...mean);
  return { light, end: most > brightest ? "bright" : most < darkest ? "dark" : null };
}

const startOf = (middle: number, side: number, length: number): number =>
  Math.max(0, Math.min(Math.round(middle - side / 2), length - side));
