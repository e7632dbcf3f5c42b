import { type SQL, sql } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { LabTriple } from "../chem/plain-colours.ts";
import type { WallTile } from "./wall.ts";
import type { Picking } from "./wall-picking.ts";
import type { newestColour, shownPicture } from "./wall-pieces.ts";

type Picture = [sha256: string, alt: string, width: number, height: number];

/** A tile as it is read, in the order in which `hungTile` asks for it. */
export type Hung = [
  id: string,
  distance: number | null,
  recipeSlug: string,
  recipeName: string,
  number: number,
  cone: string,
  atmosphere: WallTile["atmosphere"],
  surface: string,
  clay: string,
  bodySlug: string | null,
  bodyName: string | null,
  defects: WallTile["defects"],
  layered: boolean,
  firedOn: string | null,
  at: string,
  picture: Picture | null,
  colour: [...LabTriple, from: NonNullable<WallTile["colour"]>["from"]] | null,
];

/** A tile as one value: to have two dozen columns of each mapped may take as long as to find them. */
export const hungTile = (
  picked: Picking,
  picture: ReturnType<typeof shownPicture>,
  colour: ReturnType<typeof newestColour>,
): SQL<Hung> => sql`json_build_array(
  ${picked.id}, ${picked.distance}, ${picked.recipeSlug}, ${picked.recipeName}, ${picked.number},
  ${picked.cone}, ${picked.atmosphere}, ${picked.surface}, ${picked.clay}, ${picked.bodySlug},
  ${picked.bodyName}, ${picked.defects}, ${picked.overId} is not null, ${picked.firedOn},
  ${picked.at},
  case when ${picture.sha256} is not null then
    json_build_array(${picture.sha256}, ${picture.alt}, ${picture.width}, ${picture.height}) end,
  case when ${colour.from} is not null then
    json_build_array(${colour.lightness}, ${colour.a}, ${colour.b}, ${colour.from}) end)`;

export function wallTile(hung: Hung): WallTile {
  const [id, , recipeSlug, recipeName, number, cone, atmosphere, surface, clay, ...more] = hung;
  const [bodySlug, bodyName, defects, layered, firedOn, at, picture, colour] = more;
  return {
    id,
    recipe: { slug: recipeSlug, name: recipeName },
    number,
    // The schema bounds its shape; it was taken from the list of cones.
    cone: cone as Cone,
    atmosphere,
    surface,
    clay,
    body: bodySlug === null || bodyName === null ? null : { slug: bodySlug, name: bodyName },
    defects,
    layered,
    firedOn,
    at: new Date(at),
    picture: picture && pictureOf(picture),
    colour: colour && { lab: [colour[0], colour[1], colour[2]], from: colour[3] },
  };
}

const pictureOf = ([sha256, alt, width, height]: Picture) => ({
  sha256,
  alt,
  width,
  height,
});
