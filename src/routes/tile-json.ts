import type { FoundPhoto, FoundTile } from "../db/tiles.ts";

/** A tile as the recipe's JSON and its own tell it: names and times, and where its pictures are. */
export const tileJson = (tile: FoundTile) => ({
  id: tile.id,
  recipe: tile.recipe,
  revision: tile.number,
  cone: tile.cone,
  atmosphere: tile.atmosphere,
  clay: tile.clay,
  firedOn: tile.firedOn,
  remark: tile.remark,
  body: tile.body,
  firing: tile.firing && firingJson(tile.firing),
  bisqueCone: tile.bisqueCone,
  thicknessMm: tile.thicknessMm?.toFixed() ?? null,
  place: tile.place,
  outcome: {
    surface: tile.surface,
    transparency: tile.transparency,
    movement: tile.movement,
  },
  defects: tile.defects,
  application: tile.application,
  seconds: tile.seconds?.toFixed() ?? null,
  coats: tile.coats,
  specificGravity: tile.specificGravity?.toFixed() ?? null,
  beside: tile.beside,
  bucket: tile.bucket,
  layered: tile.layered,
  over: tile.over && `${tile.over.slug}@${tile.over.number}`,
  by: tile.by,
  at: tile.at.toISOString(),
  withdrawn: tile.withdrawn && { ...tile.withdrawn, at: tile.withdrawn.at.toISOString() },
  photos: tile.photos.map(photoJson),
});

const firingJson = ({
  id,
  kiln,
  startedAt,
  witness,
  withdrawnWhy,
}: NonNullable<FoundTile["firing"]>) => ({
  id,
  kiln,
  startedAt: startedAt.toISOString(),
  witness,
  withdrawnWhy,
});

export const photoJson = ({ id, sha256, alt, width, height, removed }: FoundPhoto) => ({
  id,
  sha256,
  alt,
  width,
  height,
  removed,
  at: removed ? null : `/photos/${sha256}/full`,
});
