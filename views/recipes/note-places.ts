import type { GalleryTile } from "../tiles/gallery.tsx";
import type { ShownRevision } from "./types.ts";

export type NotableTile = Pick<
  GalleryTile,
  "id" | "recipe" | "number" | "cone" | "clay" | "withdrawn"
>;

/** A place that a note can be put on, as the form sends it and as people read it. */
export type NotePlace = { value: string; label: string };

type NotableRevision = Pick<ShownRevision, "number" | "lines" | "chemistry">;

/** The places of a revision: the whole, its lines, the oxides of its unity formula and its own tiles. */
export const placesOf = (
  recipe: { slug: string },
  { number, lines, chemistry }: NotableRevision,
  tiles: readonly NotableTile[],
): NotePlace[] => [
  { value: "whole", label: `the whole of revision ${number}` },
  ...lines.map(({ position, material, amount }) => ({
    value: `line-${position}`,
    label: `the line ${material.name} ${amount.toFixed()}`,
  })),
  ...Object.entries(chemistry.unity ?? {}).map(([oxide, { value }]) => ({
    value: `oxide-${oxide}`,
    label: `${oxide} ${value.toFixed(3)} in the unity formula`,
  })),
  ...tiles
    .filter((tile) => tile.recipe.slug === recipe.slug && tile.number === number)
    .filter(({ withdrawn }) => withdrawn === null)
    .map(({ id, cone, clay }) => ({
      value: `tile-${id}`,
      label: `the tile at cone ${cone}${clay ? ` on ${clay}` : ""}`,
    })),
];
