import { capital } from "./cone-words.ts";
import { srcsetOf } from "./photo.tsx";
import { colourWords, flawWords } from "./wall-words.ts";

export type WallTile = {
  id: string;
  recipe: { slug: string; name: string };
  number: number;
  cone: string;
  atmosphere: string;
  surface: string;
  clay: string;
  body: { slug: string; name: string } | null;
  defects: readonly string[];
  layered: boolean;
  firedOn: string | null;
  at: Date;
  picture: { sha256: string; alt: string; width: number; height: number } | null;
  colour: { lab: readonly [number, number, number]; from: "instrument" | "camera" } | null;
};

/** What a picture shows where nobody said, as far as the tile's record tells. */
export const tileWords = ({ recipe, cone }: Pick<WallTile, "recipe" | "cone">): string =>
  `Test tile of ${recipe.name}, cone ${cone}`;

type WallFigureProps = { tile: WallTile; eager: boolean; coloured: boolean };

/** One tile on the wall: its picture, or an empty outline that says so, and what it is. */
export const WallFigure = ({ tile, eager, coloured }: WallFigureProps) => (
  <>
    <a class="wall-picture" href={`/tiles/${tile.id}`}>
      {tile.picture ? (
        <img
          src={`/photos/${tile.picture.sha256}/600`}
          srcset={srcsetOf(tile.picture)}
          sizes={wallSizes}
          width={wallPicture.width}
          height={wallPicture.height}
          alt={tile.picture.alt === "" ? tileWords(tile) : tile.picture.alt}
          loading={eager ? "eager" : "lazy"}
          decoding="async"
        />
      ) : (
        <span class="wall-none">
          No picture<span class="hidden-words">: {tileWords(tile)}</span>
        </span>
      )}
    </a>
    <p class="wall-name">
      <a href={`/recipes/${tile.recipe.slug}`}>{tile.recipe.name}</a>
    </p>
    <p class="wall-says">
      Cone {tile.cone}, {tile.atmosphere}
      {tile.clay === "" ? null : `, on ${tile.clay}`}
      {tile.surface === "" ? null : `, ${tile.surface}`}
    </p>
    {flawWords(tile).map((words) => (
      <p class="wall-flaw">{capital(words)}</p>
    ))}
    {coloured && tile.colour ? <p class="wall-says">{colourWords(tile.colour)}</p> : null}
  </>
);

/** Three to four, as test tiles stand; what is wider or taller is cut. */
const wallPicture = { width: 300, height: 400 };

/** How wide a picture stands on the page, for the browser to choose by. */
const wallSizes = "(max-width: 40rem) 46vw, 14rem";
