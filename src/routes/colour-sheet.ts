import { v7 as uuidv7 } from "uuid";
import { ColourFromPhoto } from "../../views/tiles/colour-from-photo.tsx";
import { ColoursPage } from "../../views/tiles/colours-page.tsx";
import { colourDifference } from "../chem/colour-comparing.ts";
import { listColouredBeside } from "../db/coloured-tiles.ts";
import { inUseOf, listColours } from "../db/colours.ts";
import type { findTile } from "../db/tiles.ts";
import type { Typed } from "../wire/body.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import type { Place } from "../work/patches.ts";

type Tile = NonNullable<Awaited<ReturnType<typeof findTile>>>;

/** A tile's colour beside those of the other tiles of its melt, one of which may be asked for. */
export async function colourOf(c: Ctx, tile: Tile) {
  const { db, viewer: reader } = c.var;
  const colours = inUseOf((await listColours(db, [tile.id])).get(tile.id) ?? []);
  const others = await listColouredBeside(db, { tileId: tile.id, reader });
  const asked = c.req.method === "GET" ? c.req.query("against") : undefined;
  const other = others.find(({ id }) => id === asked);
  const against = other && {
    id: other.id,
    difference: colourDifference(colours, other.colours),
  };
  return {
    tileId: tile.id,
    colours,
    others,
    against: against ?? (asked ? ("not-among-them" as const) : undefined),
    mayChange: tile.mayChange && tile.withdrawn === null,
  };
}

type Again = { faults: readonly Fault[]; typed: Typed };

/** Everything that was read of a tile's colour, with what was typed still in its form. */
export async function coloursSheet(
  c: Ctx,
  tile: Tile,
  { faults, typed }: Again = { faults: [], typed: {} },
) {
  const colours = (await listColours(c.var.db, [tile.id])).get(tile.id) ?? [];
  return {
    page: { title: `Colour of a tile of ${tile.recipe.name}`, here: "library" as const },
    view: () =>
      ColoursPage({
        tile,
        colours: colours.toReversed(),
        photos: tile.photos.filter(({ removed }) => !removed),
        mayChange: tile.mayChange && tile.withdrawn === null,
        faults,
        typed: (path) => typedLab(typed, path),
        idempotencyKey: uuidv7(),
      }),
  };
}

/** What was typed for a figure; a form's list of three arrives as a list. */
function typedLab({ lab }: Typed, path: string): string {
  const figure = Array.isArray(lab) ? lab[Number(path.replace("lab.", ""))] : undefined;
  return typeof figure === "string" || typeof figure === "number" ? String(figure) : "";
}

/** How wide a picture stands where it is pressed: it fits the narrowest phone. */
export const shownWidth = 280;

/** The page that reads a colour from a picture, as far as its two places are known. */
export const photoColourSheet = (
  tile: Tile,
  photo: Tile["photos"][number],
  given: {
    neutral?: Place | undefined;
    spot?: Place | undefined;
    lab?: { lightness: number; a: number; b: number } | undefined;
    neutralLightness?: string;
    faults?: readonly Fault[];
  },
) => ({
  page: { title: `Colour of a tile of ${tile.recipe.name}`, here: "library" as const },
  view: () =>
    ColourFromPhoto({
      tile,
      photo,
      shownWidth,
      neutral: given.neutral,
      spot: given.spot,
      lab: given.lab,
      neutralLightness: given.neutralLightness ?? "50",
      faults: given.faults ?? [],
      idempotencyKey: uuidv7(),
    }),
});

/** A place as it was typed, where both of its shares can be read. */
export function typedPlace(typed: Typed, name: "neutral" | "spot"): Place | undefined {
  const x = Number.parseFloat(typedText(typed, `${name}.x`));
  const y = Number.parseFloat(typedText(typed, `${name}.y`));
  return x >= 0 && x <= 1 && y >= 0 && y <= 1 ? { x, y } : undefined;
}
