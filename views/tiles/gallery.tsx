import type { Decimal } from "decimal.js";
import type { Child } from "hono/jsx";
import type { Cone } from "../../src/chem/cones.ts";
import { type Claim, capital, claimWords, coneInFull, isOutside } from "./cone-words.ts";
import { Day, DayOf } from "./day.tsx";
import type { Defect } from "./defect-words.ts";
import { Layered } from "./layered.tsx";
import { type HungPhoto, TilePhoto, viewingOf } from "./photo.tsx";
import { type ShownFiring, witnessInShort } from "./witness-words.ts";

export type GalleryTile = {
  id: string;
  recipe: { slug: string; name: string };
  number: number;
  claimed: Claim;
  cone: Cone;
  atmosphere: string;
  clay: string;
  firedOn: string | null;
  remark: string;
  body: { slug: string; name: string } | null;
  firing: ShownFiring | null;
  bisqueCone: Cone | null;
  thicknessMm: Decimal | null;
  place: string;
  surface: string;
  transparency: string | null;
  movement: string | null;
  defects: readonly Defect[];
  application: string | null;
  seconds: Decimal | null;
  coats: number | null;
  specificGravity: Decimal | null;
  beside: string;
  /** The bucket that it proves, where the reader may know of it. */
  bucket: { id: string; name: string } | null;
  /** Over another glaze, which is null where the reader may not know of it. */
  layered: boolean;
  over: { slug: string; name: string; number: number } | null;
  by: { name: string };
  at: Date;
  withdrawn: { why: string; at: Date; by: string } | null;
  photos: readonly HungPhoto[];
};

type Here = { slug: string; number: number };

type TileGalleryProps = { tiles: readonly GalleryTile[]; mayAdd: boolean; here: Here };

/**
 * The fired tiles of one melt. Tiles that were fired for another recipe or revision with the same
 * melt are among them and say so; what was withdrawn is struck through, with the reason beside it.
 */
export const TileGallery = ({ tiles, mayAdd, here }: TileGalleryProps) => (
  <div class="gallery" id="tiles">
    {tiles.length === 0 ? (
      <p>No tile of this melt has been fired yet, so nobody here has seen what it looks like.</p>
    ) : (
      <ul class="gallery-tiles">
        {tiles.map((tile, place) => (
          <li>
            <TileFigure tile={tile} here={here} first={isFirstOfCone(tiles, place)} />
          </li>
        ))}
      </ul>
    )}
    {mayAdd ? (
      <p class="actions">
        <a class="button" href={`/recipes/${here.slug}/tiles/new?revision=${here.number}`}>
          Add a tile of revision {here.number}
        </a>
      </p>
    ) : null}
  </div>
);

const isFirstOfCone = (tiles: readonly GalleryTile[], place: number): boolean =>
  tiles.findIndex(({ cone }) => cone === tiles[place]?.cone) === place;

type TileFigureProps = { tile: GalleryTile; here: Here; first: boolean };

/** One tile with its pictures and all that is known of it. */
export const TileFigure = ({ tile, here, first }: TileFigureProps) => (
  <figure class={tile.withdrawn ? "gallery-tile gallery-withdrawn" : "gallery-tile"}>
    {tile.photos.length === 0 ? <p class="tile-none tile-gone">No picture of this tile.</p> : null}
    {tile.photos.map((photo) => (
      <TilePhoto
        leadsTo={viewingOf(tile.id, photo)}
        photo={photo}
        instead={pictureWords(tile)}
        sizes={gallerySizes}
      />
    ))}
    <figcaption>
      {tile.withdrawn ? <Withdrawn {...tile.withdrawn} /> : null}
      <p class="gallery-fired">
        <Struck when={tile.withdrawn !== null}>
          <a href={`/tiles/${tile.id}`}>
            {capital(first ? coneInFull(tile.cone) : `cone ${tile.cone}`)}
          </a>
          , {tile.atmosphere}
          {tile.clay === "" ? null : `, on ${tile.clay}`}
          {tile.firing ? `, ${witnessInShort(tile.cone, tile.firing)}` : null}
        </Struck>
      </p>
      {tile.layered ? (
        <p>
          <strong>Over another glaze:</strong> <Layered over={tile.over} />
        </p>
      ) : null}
      {tile.defects.length > 0 ? (
        <p>
          <strong>Shows {tile.defects.join(", ")}.</strong>
        </p>
      ) : null}
      {isOutside(tile.cone, tile.claimed) ? (
        <p>Outside the cones that its revision claims: {claimWords(tile.claimed)}.</p>
      ) : null}
      {tile.remark === "" ? null : (
        <p class="gallery-remark">
          <Struck when={tile.withdrawn !== null}>{tile.remark}</Struck>
        </p>
      )}
      <Origin tile={tile} here={here} />
      <p class="gallery-who">
        {tile.firedOn === null ? null : (
          <>
            Fired <Day on={tile.firedOn} />.{" "}
          </>
        )}
        Added by {tile.by.name}, <DayOf at={tile.at} />.
      </p>
    </figcaption>
  </figure>
);

/** How wide a picture stands on the page, for the browser to choose by. */
export const gallerySizes = "(max-width: 40rem) 92vw, 20rem";

/** What a picture shows, as far as the tile's record tells. */
export const pictureWords = (tile: Pick<GalleryTile, "recipe" | "cone">): string =>
  `Test tile of ${tile.recipe.name}, cone ${tile.cone}`;

type StruckProps = { when: boolean; children?: Child };

const Struck = ({ when, children }: StruckProps) => {
  const Words = when ? "s" : "span";
  return <Words>{children}</Words>;
};

type WithdrawnProps = NonNullable<GalleryTile["withdrawn"]>;

export const Withdrawn = ({ why, by, at }: WithdrawnProps) => (
  <p class="gallery-why">
    <strong>Withdrawn</strong> by {by}, <DayOf at={at} />: {why}
  </p>
);

const Origin = ({ tile, here }: { tile: GalleryTile; here: Here }) =>
  tile.recipe.slug === here.slug && tile.number === here.number ? null : (
    <p>
      Fired for{" "}
      <a href={`/recipes/${tile.recipe.slug}/revisions/${tile.number}`}>
        {tile.recipe.name}, revision {tile.number}
      </a>
      , which is the same melt.
    </p>
  );
