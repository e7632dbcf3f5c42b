import { capital } from "./cone-words.ts";
import { Day, DayOf } from "./day.tsx";
import { tileWords, type WallTile } from "./wall-tile.tsx";
import { type AskedWall, flawWords, narrowedWords } from "./wall-words.ts";

type ContactSheetProps = {
  tiles: readonly WallTile[];
  asked: AskedWall;
  bodyName: string | undefined;
  /** Where the tiles after these are, or null where there are none. */
  next: string | null;
  /** The wall of these tiles. */
  back: string;
  studio: string;
  /** The day that it is printed on. */
  on: string;
};

/** Three across and five down. */
const onLeaf = 15;

/** The tiles of a wall on paper: fifteen to an A4 leaf, each with what has to be known to find it. */
export const ContactSheet = ({ tiles, asked, bodyName, next, back, ...at }: ContactSheetProps) => {
  const narrowed = narrowedWords(asked, bodyName);
  const leaves = Array.from({ length: Math.ceil(tiles.length / onLeaf) }, (_, leaf) =>
    tiles.slice(leaf * onLeaf, (leaf + 1) * onLeaf),
  );
  return (
    <section class="contact">
      <div class="screen-only">
        <h1>Contact sheet</h1>
        <p>
          {narrowed === "" ? "The newest tiles" : capital(narrowed)}: {tiles.length} on{" "}
          {leaves.length === 1 ? "one leaf" : `${leaves.length} leaves`} of A4.
        </p>
        <p class="actions">
          <button type="button" data-print hidden>
            Print this page
          </button>
          <a class="button quiet" href={back}>
            Back to the wall
          </a>
          {next ? (
            <a class="button quiet" href={next} rel="next">
              The tiles after these
            </a>
          ) : null}
        </p>
      </div>
      {leaves.length === 0 ? <p>No tile fits all of that.</p> : null}
      {leaves.map((leaf, place) => (
        <section class="contact-leaf" aria-label={`Leaf ${place + 1} of ${leaves.length}`}>
          <p class="contact-head">
            {at.studio}, <Day on={at.on} />
            {narrowed === "" ? "" : `: ${narrowed}`}. Leaf {place + 1} of {leaves.length}
          </p>
          <ul class="contact-tiles">
            {leaf.map((tile) => (
              <li class="contact-tile">
                <ContactTile tile={tile} />
              </li>
            ))}
          </ul>
        </section>
      ))}
    </section>
  );
};

const ContactTile = ({ tile }: { tile: WallTile }) => (
  <>
    {tile.picture ? (
      // Nothing waits for being scrolled to: paper has no scrolling.
      <img
        class="contact-picture"
        src={`/photos/${tile.picture.sha256}/600`}
        width={300}
        height={400}
        alt={tile.picture.alt === "" ? tileWords(tile) : tile.picture.alt}
      />
    ) : (
      <span class="contact-picture wall-none">No picture</span>
    )}
    <div>
      <p class="contact-name">
        <a href={`/tiles/${tile.id}`}>{tile.recipe.name}</a>
      </p>
      <p>Revision {tile.number}</p>
      <p>
        Cone {tile.cone}, {tile.atmosphere}
      </p>
      {tile.clay === "" ? null : <p>On {tile.clay}</p>}
      <p>
        {tile.firedOn === null ? (
          <>
            Added <DayOf at={tile.at} />
          </>
        ) : (
          <>
            Fired <Day on={tile.firedOn} />
          </>
        )}
      </p>
      {flawWords(tile).map((words) => (
        <p>{capital(words)}</p>
      ))}
    </div>
  </>
);
