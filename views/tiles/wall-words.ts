import { labWords } from "./colour-words.ts";

/** What an address asks the wall for, as it was typed. */
export type AskedWall = {
  cone?: string | undefined;
  body?: string | undefined;
  surface?: string | undefined;
  defect?: string | undefined;
  colour?: string | undefined;
  atmosphere?: string | undefined;
  after?: string | undefined;
};

/** What narrows the wall, in words: "cone 6, on Loft stoneware, nearest to green first". */
export function narrowedWords(
  { cone, body, surface, defect, colour, atmosphere }: AskedWall,
  bodyName: string | undefined,
): string {
  const words = [
    cone && `cone ${cone}`,
    atmosphere,
    body && `on ${bodyName ?? body}`,
    surface && `surface “${surface}”`,
    defect && (defect === "none" ? "without a defect" : defect),
    colour && `nearest to ${/\d/.test(colour) ? `L*a*b* ${colour}` : colour} first`,
  ].filter(Boolean);
  return words.join(", ");
}

/** What one tile shows that it should not, and what it lies over. */
export const flawWords = (tile: { defects: readonly string[]; layered: boolean }): string[] => [
  ...(tile.layered ? ["over another glaze"] : []),
  ...(tile.defects.length > 0 ? [`shows ${tile.defects.join(", ")}`] : []),
];

/** The colour that a tile was found by, and what it was read with. */
export const colourWords = ({
  lab: [lightness, a, b],
  from,
}: {
  lab: readonly [number, number, number];
  from: "instrument" | "camera";
}): string =>
  `${labWords({ lightness, a, b })}, ${from === "instrument" ? "by instrument" : "from a picture: for comparing only"}`;
