import { TilePage, type TilePageProps } from "../../views/tiles/page.tsx";
import type { findTile } from "../db/tiles.ts";
import type { Ctx } from "../wire/context.ts";
import { refuse } from "../wire/problems.tsx";

type Tile = NonNullable<Awaited<ReturnType<typeof findTile>>>;

/** A tile's page, with what was typed on it and what is wrong with that. */
export const tileSheet = (
  c: Ctx,
  tile: Tile,
  more: Pick<TilePageProps, "faults" | "typed"> = {},
) => ({
  page: { title: `Tile of ${tile.recipe.name}, cone ${tile.cone}`, here: "library" as const },
  view: () =>
    TilePage({
      tile,
      mayChange: tile.mayChange,
      mayRemove: c.var.viewer?.role === "manager",
      ...more,
    }),
});

/** Nothing more is done to a tile that was withdrawn. */
export function withdrawnBefore(c: Ctx, tile: Tile) {
  const detail = `This tile was withdrawn before, and that stands: ${tile.withdrawn?.why ?? ""} Put the next one on record as a tile of its own.`;
  const faults = [{ path: "", says: detail }];
  return refuse(
    c,
    { status: 409, title: "Withdrawn before", detail },
    tileSheet(c, tile, { faults }),
  );
}
