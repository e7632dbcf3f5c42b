import { differenceWords, type Lab } from "../chem/colour.ts";
import type { ColourDifference } from "../chem/colour-comparing.ts";
import type { FoundColour } from "../db/colours.ts";
import type { colourOf } from "./colour-sheet.ts";

/** Figures as they are told: to the hundredth, which is finer than any of these instruments reads. */
const hundredth = (value: number): number => Math.round(value * 100) / 100 + 0;

export const labJson = ({ lightness, a, b }: Lab): [number, number, number] => [
  hundredth(lightness),
  hundredth(a),
  hundredth(b),
];

/** A colour as the tile's JSON tells it, with what it is good for. */
export const colourJson = (colour: FoundColour) => ({
  id: colour.id,
  lab: labJson(colour),
  white: "D50" as const,
  from: colour.from,
  for: colour.from === "camera" ? "comparing, not measuring" : "measuring",
  photo: colour.photoId,
  by: colour.by,
  at: colour.at.toISOString(),
});

/** How far two tiles' colours are apart, or why nothing is told of it. */
export const differenceJson = (difference: ColourDifference) =>
  difference.kind === "differs"
    ? {
        kind: difference.kind,
        deltaE00: hundredth(difference.deltaE),
        words: differenceWords(difference.deltaE),
        from: difference.from,
      }
    : { kind: difference.kind };

/** What a tile's own JSON tells of its colour; `against` only where another tile was asked for. */
export function colourOfTileJson({ colours, against }: Awaited<ReturnType<typeof colourOf>>) {
  const { instrument, camera } = colours;
  const told = {
    colours: {
      instrument: instrument ? colourJson(instrument) : null,
      camera: camera ? colourJson(camera) : null,
    },
  };
  if (against === undefined) return told;
  if (against === "not-among-them") return { ...told, against: { kind: against } };
  return { ...told, against: { tile: against.id, ...differenceJson(against.difference) } };
}
