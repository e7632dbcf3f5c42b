import { Hono } from "hono";
import { Viewing } from "../../views/tiles/viewing.tsx";
import { findTile } from "../db/tiles.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { notFound } from "../wire/problems.tsx";
import { photoJson } from "./tile-json.ts";

export const viewing = new Hono<Env>();

viewing.get(
  "/tiles/:id/photos/:photo",
  described({ says: "One picture of a tile, as large as the screen, with the ways to the others" }),
  readerRequired,
  async (c) => {
    const tile = await findTile(c.var.db, { id: c.req.param("id"), reader: c.var.viewer });
    const place = tile?.photos.findIndex(({ id }) => id === c.req.param("photo")) ?? -1;
    const photo = tile?.photos[place];
    if (!tile || !photo) return notFound(c);
    const at = (beside: { id: string } | undefined) =>
      beside ? `/tiles/${tile.id}/photos/${beside.id}` : null;
    const previous = at(tile.photos[place - 1]);
    const next = at(tile.photos[place + 1]);
    return answer(c, {
      json: () => ({ ...photoJson(photo), tile: tile.id, previous, next }),
      page: { title: `Picture ${place + 1} of ${tile.recipe.name}`, here: "library" },
      view: () => Viewing({ tile, photo, place, count: tile.photos.length, previous, next }),
    });
  },
);
