import type { BlendKind } from "./blends.ts";

/** The letter that a trial's tiles carry, by its kind; few strokes, so that it can be scratched. */
const letters: Readonly<Record<BlendKind, string>> = {
  ladder: "L",
  line: "B",
  triaxial: "T",
  grid: "G",
};

/** What to scratch into the tile of a point: L1, T12. */
export const tileMark = (kind: BlendKind, n: number): string => `${letters[kind]}${n}`;
