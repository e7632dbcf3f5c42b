import { Day } from "../materials/day.tsx";
import { capital } from "../tiles/cone-words.ts";
import { gallerySizes, pictureWords } from "../tiles/gallery.tsx";
import { TilePhoto } from "../tiles/photo.tsx";
import { witnessInShort } from "../tiles/witness-words.ts";
import type { ShownPiece } from "./types.ts";

type TilesProps = { piece: ShownPiece; photosAt: string };

/** Its tiles with how they were made and fired; a picture without that shows nothing. */
export const Tiles = ({ piece: { tiles, withdrawn }, photosAt }: TilesProps) => (
  <>
    <h3>What it looked like</h3>
    {tiles.length === 0 ? (
      <p>No tile of this glaze is on record, so nobody here can say what it looks like.</p>
    ) : (
      <ul class="gallery-tiles handout-tiles">
        {tiles.map((tile) => (
          <li>
            <figure class="gallery-tile">
              {tile.photos.length === 0 ? (
                <p class="tile-none tile-gone">No picture of this tile.</p>
              ) : null}
              {tile.photos.map((photo) => (
                <TilePhoto
                  photo={photo}
                  instead={pictureWords(tile)}
                  sizes={gallerySizes}
                  at={photosAt}
                  eager
                />
              ))}
              <figcaption>
                <TileWords tile={tile} />
              </figcaption>
            </figure>
          </li>
        ))}
      </ul>
    )}
    {withdrawn.tiles > 0 ? (
      <p>
        {withdrawn.tiles === 1 ? "One tile was" : `${withdrawn.tiles} tiles were`} withdrawn and
        left out.
      </p>
    ) : null}
  </>
);

type Tile = ShownPiece["tiles"][number];

const TileWords = ({ tile }: { tile: Tile }) => (
  <>
    <p class="gallery-fired">
      <strong>Cone {tile.cone}</strong>, {tile.atmosphere},{" "}
      {tile.firing ? witnessInShort(tile.cone, tile.firing) : "no firing on record"}
      {dayOf(tile) ? (
        <>
          , fired <Day on={dayOf(tile) ?? ""} />
        </>
      ) : null}
      .
    </p>
    {tile.layered ? (
      <p>
        <strong>Over another glaze</strong>
        {tile.over ? `, ${tile.over.name}` : ""}: it speaks for the two together and for neither
        alone.
      </p>
    ) : null}
    <p>{capital(conditionsOf(tile).join("; "))}.</p>
    <p>
      <strong>
        {tile.defects.length > 0 ? `Shows ${tile.defects.join(", ")}.` : "No defect ticked."}
      </strong>
    </p>
    {tile.remark === "" ? null : <p class="gallery-remark">{tile.remark}</p>}
  </>
);

const dayOf = ({ firing, firedOn }: Tile): string | null =>
  firing?.startedAt.toISOString().slice(0, 10) ?? firedOn;

/** On what, how thick and how it got there; what nobody told is said to be missing. */
function conditionsOf(tile: Tile): string[] {
  const { body, clay, bisqueCone, thicknessMm, application, seconds, coats } = tile;
  const put = [
    application,
    seconds && `${seconds.toFixed()} s`,
    coats && (coats === 1 ? "one coat" : `${coats} coats`),
    tile.specificGravity && `from a slurry of ${tile.specificGravity.toFixed()}`,
  ].filter(Boolean);
  const looks = [tile.surface, tile.transparency, tile.movement].filter(Boolean);
  return [
    `on ${body?.name || clay || "a clay that is not said"}`,
    bisqueCone === null ? "bisque not told" : `bisque cone ${bisqueCone}`,
    thicknessMm === null ? "thickness not told" : `${thicknessMm.toFixed()} mm thick`,
    put.length === 0 ? "how it was put on not told" : put.join(", "),
    ...(looks.length === 0 ? [] : [looks.join(", ")]),
    ...(tile.beside ? [`beside it stood ${tile.beside}`] : []),
  ];
}
