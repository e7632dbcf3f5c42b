import { converter, differenceCiede2000, formatHex } from "culori";

/** A colour in CIE L*a*b* under D50: lightness 0 to 100, a* green to red, b* blue to yellow. */
export type Lab = { lightness: number; a: number; b: number };

/** Red, green and blue in linear light, as shares of the screen's white (D65, sRGB primaries). */
export type LinearRgb = { red: number; green: number; blue: number };

const difference = differenceCiede2000();

/**
 * How far two colours are from each other to the eye, ΔE00, with kL = kC = kH = 1: 0 and more,
 * without a unit. Both have to stand under the same white; the formula itself knows no white, so
 * they are handed to culori under the name that it takes without adapting anything.
 *
 * Worked number: L*a*b* 50, 2.6772, −79.7751 and 50, 0, −82.7485 are 2.0425 apart.
 *
 * Source: G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula: Implementation
 * Notes, Supplementary Test Data, and Mathematical Observations", Color Research & Application
 * 30(1), 2005, 21–30, whose 34 pairs the tests hold it to.
 */
export const deltaE00 = (one: Lab, other: Lab): number => difference(asIs(one), asIs(other));

const asIs = ({ lightness, a, b }: Lab) => ({ mode: "lab65", l: lightness, a, b }) as const;

const toLinear = converter("lrgb");
const toLab = converter("lab");

/** Channels of a picture in sRGB, 0 to 255, in linear light. Source: IEC 61966-2-1:1999. */
export function linearOfSrgb([red, green, blue]: readonly [number, number, number]): LinearRgb {
  const { r, g, b } = toLinear({ mode: "rgb", r: red / 255, g: green / 255, b: blue / 255 });
  return { red: r, green: g, blue: b };
}

/**
 * Light in CIE L*a*b* under D50: the screen's D65 is adapted to D50 by Bradford's matrix, as ICC
 * profiles do it. Worked number: sRGB 255, 0, 0 gives L* 54.29, a* 80.80, b* 69.89.
 */
export function labOfLinear({ red, green, blue }: LinearRgb): Lab {
  const { l, a, b } = toLab({ mode: "lrgb", r: red, g: green, b: blue });
  return { lightness: l, a, b };
}

/** The colour as a screen can show it, `#rrggbb`; what lies outside sRGB is clipped to it. */
export const hexOf = ({ lightness, a, b }: Lab): string =>
  formatHex({ mode: "lab", l: lightness, a, b });

/** The lightness of the grey card that photographers use: it sends back 18 % of the light. */
export const greyCardLightness = 50;

export type ThroughNeutral =
  | { kind: "colour"; lab: Lab }
  /** The grey patch has a channel without light, so that nothing can be scaled by it. */
  | { kind: "no-light" }
  /** It comes out lighter than the white that everything is held against. */
  | { kind: "over-white"; lightness: number };

/**
 * The colour of a place in a picture, once the picture is put right by a patch in it that is known
 * to be neutral: each channel is scaled in linear light so that the patch becomes a grey of the
 * lightness given, which takes out the tint of the lamp and the camera's exposure (von Kries'
 * scaling, in the camera's channels). What the camera does beyond that stays: such colours are for
 * comparing, not for measuring.
 *
 * @param neutralLightness L* of the patch, above 0 and up to 100.
 *
 * Worked number: a patch that was caught as linear 0.2, 0.1, 0.1 beside a place of the same light
 * gives the patch's own lightness and a* = b* = 0.
 */
export function labThroughNeutral(given: {
  neutral: LinearRgb;
  spot: LinearRgb;
  neutralLightness: number;
}): ThroughNeutral {
  const { neutral, spot } = given;
  if (Math.min(neutral.red, neutral.green, neutral.blue) <= 0) return { kind: "no-light" };
  const light = luminanceOf(given.neutralLightness);
  const lab = labOfLinear({
    red: (spot.red / neutral.red) * light,
    green: (spot.green / neutral.green) * light,
    blue: (spot.blue / neutral.blue) * light,
  });
  if (lab.lightness > 100) return { kind: "over-white", lightness: lab.lightness };
  return { kind: "colour", lab };
}

/**
 * The share of white's light that a lightness stands for: Y/Yn of L*.
 * Source: CIE 15:2004, 8.2.1, turned round. L* 50 is 0.1842.
 */
export function luminanceOf(lightness: number): number {
  const root = (lightness + 16) / 116;
  return root > 6 / 29 ? root ** 3 : (lightness * 27) / 24389;
}

/**
 * How much a difference is, in words: common practice. It goes by the hundredth that is shown, so
 * that the words fit the figure beside them.
 */
export function differenceWords(deltaE: number): string {
  const shown = Math.round(deltaE * 100);
  if (shown < 100) return "hardly to be seen";
  if (shown < 200) return "to be seen side by side";
  return shown <= 500 ? "plain" : "another colour";
}
