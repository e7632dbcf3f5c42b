import { type Fault, FaultSummary, TextArea } from "../parts/field.tsx";
import { TestList } from "../tests/list.tsx";
import type { ShownTest } from "../tests/types.ts";
import { ColourSection, type ColourSectionProps } from "./colour-section.tsx";
import { Facts } from "./facts.tsx";
import { type GalleryTile, gallerySizes, pictureWords, Withdrawn } from "./gallery.tsx";
import { type Photo, TilePhoto, viewingOf } from "./photo.tsx";
import { PhotoForm } from "./photo-form.tsx";

export type TilePageProps = {
  tile: GalleryTile;
  colour: ColourSectionProps;
  /** What was done to this tile. */
  tests: readonly ShownTest[];
  /** Whether the reader may put a test of it on record. */
  mayTest: boolean;
  /** Whether the reader may add pictures and withdraw the tile. */
  mayChange: boolean;
  /** Whether the reader may have pictures removed for good. */
  mayRemove: boolean;
  faults?: readonly Fault[] | undefined;
  typed?: { alt?: string | undefined; why?: string | undefined } | undefined;
};

/** One fired tile: its pictures, how it was fired, who says so, and what can be done about it. */
export const TilePage = ({
  tile,
  colour,
  tests,
  mayTest,
  mayChange,
  mayRemove,
  faults = [],
  typed = {},
}: TilePageProps) => (
  <article>
    <h1>
      Tile of {tile.recipe.name}, cone {tile.cone}
    </h1>
    {tile.withdrawn ? <Withdrawn {...tile.withdrawn} /> : null}
    <FaultSummary faults={faults} />
    <Pictures tile={tile} mayRemove={mayRemove} />
    <Facts tile={tile} />
    <ColourSection {...colour} />
    <section id="tests">
      <h2>What this tile was tested for</h2>
      <TestList
        tests={tests}
        addAt={
          mayTest && !tile.withdrawn
            ? `/recipes/${tile.recipe.slug}/tests/new?revision=${tile.number}&tile=${tile.id}`
            : undefined
        }
      />
    </section>
    {mayChange && !tile.withdrawn ? (
      <>
        <PhotoForm tileId={tile.id} alt={typed.alt} faults={faults} />
        <WithdrawalForm tileId={tile.id} why={typed.why} faults={faults} />
      </>
    ) : null}
  </article>
);

type PicturesProps = { tile: GalleryTile; mayRemove: boolean };

const Pictures = ({ tile, mayRemove }: PicturesProps) =>
  tile.photos.length === 0 ? (
    <p class="tile-none tile-gone">No picture of this tile.</p>
  ) : (
    <ul class="tile-pictures">
      {tile.photos.map((photo, place) => (
        <li>
          <figure class="gallery-tile">
            <TilePhoto
              leadsTo={viewingOf(tile.id, photo)}
              photo={photo}
              instead={pictureWords(tile)}
              sizes={gallerySizes}
              eager={place === 0}
            />
            {photo.alt === "" ? null : <figcaption>{photo.alt}</figcaption>}
          </figure>
          {mayRemove && !photo.removed ? <Removal photo={photo} /> : null}
        </li>
      ))}
    </ul>
  );

const Removal = ({ photo }: { photo: Photo }) => (
  <p>
    <a href={`/photos/${photo.sha256}/removal`}>Remove this picture for good</a>
  </p>
);

type WithdrawalFormProps = { tileId: string; why: string | undefined; faults: readonly Fault[] };

const WithdrawalForm = ({ tileId, why, faults }: WithdrawalFormProps) => {
  const fault = faults.find(({ path }) => path === "why")?.says;
  return (
    <details open={fault !== undefined}>
      <summary>Withdraw this tile</summary>
      <form method="post" action={`/tiles/${tileId}/withdrawal`}>
        <TextArea
          label="Why it does not count"
          name="why"
          required
          maxlength={1000}
          value={why}
          hint="Such as: it was another glaze. The tile and its pictures stay, struck through, with your reason. This cannot be undone."
          fault={fault}
        />
        <p class="actions">
          <button type="submit">Withdraw the tile</button>
        </p>
      </form>
    </details>
  );
};
