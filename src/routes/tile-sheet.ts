import { TilePage, type TilePageProps } from "../../views/tiles/page.tsx";
import { listTestsOfTile } from "../db/tests.ts";
import type { findTile } from "../db/tiles.ts";
import type { Ctx } from "../wire/context.ts";
import { refuse } from "../wire/problems.tsx";
import { colourOf } from "./colour-sheet.ts";
import { withLimits } from "./test-limits.ts";

type Tile = NonNullable<Awaited<ReturnType<typeof findTile>>>;

/** A tile's page, with what was typed on it and what is wrong with that. */
export async function tileSheet(
  c: Ctx,
  tile: Tile,
  more: Pick<TilePageProps, "faults" | "typed"> = {},
) {
  const { db, viewer } = c.var;
  const tests = await listTestsOfTile(db, { tileId: tile.id, reader: viewer });
  const colour = await colourOf(c, tile);
  return {
    page: { title: `Tile of ${tile.recipe.name}, cone ${tile.cone}`, here: "library" as const },
    view: () =>
      TilePage({
        tile,
        colour,
        tests: tests.map((test) => withLimits(c, test)),
        mayTest: viewer !== undefined,
        mayChange: tile.mayChange,
        mayRemove: viewer?.role === "manager",
        ...more,
      }),
  };
}

/** Nothing more is done to a tile that was withdrawn. */
export async function withdrawnBefore(c: Ctx, tile: Tile) {
  const detail = `This tile was withdrawn before, and that stands: ${tile.withdrawn?.why ?? ""} Put the next one on record as a tile of its own.`;
  const faults = [{ path: "", says: detail }];
  return refuse(
    c,
    { status: 409, title: "Withdrawn before", detail },
    await tileSheet(c, tile, { faults }),
  );
}
