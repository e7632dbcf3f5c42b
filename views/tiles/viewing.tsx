import { type GalleryTile, pictureWords } from "./gallery.tsx";
import { type Photo, srcsetOf } from "./photo.tsx";

type ViewingProps = {
  tile: GalleryTile;
  photo: Photo;
  /** Its place among the tile's pictures, from 0. */
  place: number;
  count: number;
  previous: string | null;
  next: string | null;
};

/**
 * One picture of a tile over the whole screen. Everything in it is a link; arrow keys, Escape and a
 * swipe follow the same links where there is a script.
 */
export const Viewing = ({ tile, photo, place, count, previous, next }: ViewingProps) => {
  const words = photo.alt === "" ? pictureWords(tile) : photo.alt;
  return (
    <article class="viewing" data-viewing>
      <h1 class="viewing-title">
        {tile.recipe.name}, cone {tile.cone}: picture {place + 1} of {count}
      </h1>
      <nav class="viewing-ways" aria-label="Pictures of this tile">
        {previous ? (
          <a href={previous} rel="prev">
            Previous
          </a>
        ) : (
          <span>Previous</span>
        )}
        {next ? (
          <a href={next} rel="next">
            Next
          </a>
        ) : (
          <span>Next</span>
        )}
        <a href={`/tiles/${tile.id}`} data-close>
          Back to the tile
        </a>
      </nav>
      {photo.removed ? (
        <p class="tile-none tile-gone">This picture was removed.</p>
      ) : (
        <figure class="viewing-picture">
          <img
            src={`/photos/${photo.sha256}/1200`}
            srcset={`${srcsetOf(photo)}${photo.width > 1200 ? `, /photos/${photo.sha256}/full ${photo.width}w` : ""}`}
            sizes="100vw"
            width={photo.width}
            height={photo.height}
            alt={words}
          />
          <figcaption>
            {words}. <a href={`/photos/${photo.sha256}/full`}>The picture by itself</a>
          </figcaption>
        </figure>
      )}
    </article>
  );
};
