import type { WallTile } from "../db/wall.ts";

/** A tile as the wall's JSON tells it; the tile's own address tells all. */
export const wallTileJson = (tile: WallTile) => ({
  id: tile.id,
  recipe: tile.recipe,
  revision: tile.number,
  cone: tile.cone,
  atmosphere: tile.atmosphere,
  outcome: { surface: tile.surface },
  clay: tile.clay,
  body: tile.body,
  defects: tile.defects,
  layered: tile.layered,
  firedOn: tile.firedOn,
  at: tile.at.toISOString(),
  picture: tile.picture && { ...tile.picture, at: `/photos/${tile.picture.sha256}/full` },
  colour: tile.colour,
});
