import { deltaE00, type Lab } from "./colour.ts";

export const colourSources = ["instrument", "camera"] as const;
export type ColourSource = (typeof colourSources)[number];

/** A tile's colour and what it was read with. */
export type ReadColour = Lab & { from: ColourSource };

/** The newest of each kind that a tile has; what the instrument said comes before the camera. */
export type ColoursInUse = Readonly<Partial<Record<ColourSource, ReadColour>>>;

export type ColourDifference =
  | { kind: "differs"; deltaE: number; from: ColourSource }
  /** One was read by the instrument and the other by the camera: nothing is told of the two. */
  | { kind: "read-otherwise" }
  | { kind: "no-colour" };

/**
 * How far the colours of two tiles are apart. Only colours that were read in the same way are held
 * against each other: instrument with instrument, else camera with camera.
 */
export function colourDifference(one: ColoursInUse, other: ColoursInUse): ColourDifference {
  for (const from of colourSources) {
    const [left, right] = [one[from], other[from]];
    if (left && right) return { kind: "differs", deltaE: deltaE00(left, right), from };
  }
  const both = [one, other].every(({ instrument, camera }) => instrument ?? camera);
  return { kind: both ? "read-otherwise" : "no-colour" };
}

export type ProofTile = { id: string; on: Date; colours: ColoursInUse };

/** A proof tile held against the first of its bucket; none is held against itself. */
export type Drift<Tile extends ProofTile> = {
  first: Tile;
  later: { tile: Tile; difference: ColourDifference }[];
};

/**
 * How a bucket's colour went over time: its proof tiles oldest first, and each later one held
 * against the first that has a colour. `drift` is undefined where none has one.
 */
export function driftOf<Tile extends ProofTile>(
  tiles: readonly Tile[],
): { inOrder: Tile[]; drift: Drift<Tile> | undefined } {
  const inOrder = [...tiles].sort(
    (one, other) => one.on.getTime() - other.on.getTime() || (one.id < other.id ? -1 : 1),
  );
  const start = inOrder.findIndex(({ colours }) => colours.instrument ?? colours.camera);
  const first = inOrder[start];
  if (!first) return { inOrder, drift: undefined };
  const later = inOrder
    .slice(start + 1)
    .map((tile) => ({ tile, difference: colourDifference(first.colours, tile.colours) }));
  return { inOrder, drift: { first, later } };
}
