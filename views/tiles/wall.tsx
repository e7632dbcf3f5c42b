import { KilnPages } from "../firings/kiln-pages.tsx";
import { type Fault, FaultSummary } from "../parts/field.tsx";
import { capital } from "./cone-words.ts";
import { WallForm } from "./wall-form.tsx";
import { WallFigure, type WallTile } from "./wall-tile.tsx";
import { type AskedWall, narrowedWords } from "./wall-words.ts";

type WallPageProps = {
  tiles: readonly WallTile[];
  asked: AskedWall;
  bodies: readonly { slug: string; name: string }[];
  atmospheres: readonly string[];
  /** Where the next page is, or null on the last. */
  next: string | null;
  /** Where these are as a sheet to print. */
  sheet: string;
  /** A colour was asked for, and no tile that the reader may know of has one. */
  uncoloured: boolean;
  faults: readonly Fault[];
};

/** Every tile with its picture: the way to a glaze for who looks before reading. */
export const WallPage = ({ tiles, asked, bodies, next, sheet, faults, ...more }: WallPageProps) => {
  const bodyName = bodies.find(({ slug }) => slug === asked.body)?.name;
  const narrowed = faults.length > 0 ? "" : narrowedWords(asked, bodyName);
  return (
    <section id="wall">
      <h1>Tiles</h1>
      <KilnPages here="/tiles" />
      <FaultSummary faults={faults} />
      <details class="wall-narrowing" open={faults.length > 0}>
        <summary>Find by cone, body, surface, defect or colour</summary>
        <WallForm asked={asked} bodies={bodies} atmospheres={more.atmospheres} faults={faults} />
      </details>
      {narrowed === "" ? null : (
        <p class="wall-asked">
          <strong>{capital(narrowed)}.</strong>{" "}
          {asked.colour ? "Tiles without a colour are left out. " : null}
          <a href="/tiles">Show all tiles</a>
        </p>
      )}
      {faults.length > 0 ? null : tiles.length === 0 ? (
        <Nothing narrowed={narrowed !== ""} uncoloured={more.uncoloured} after={asked.after} />
      ) : (
        <>
          <ul class="wall">
            {tiles.map((tile, place) => (
              <li class="wall-tile">
                <WallFigure
                  tile={tile}
                  eager={place < firstRow}
                  coloured={asked.colour !== undefined}
                />
              </li>
            ))}
          </ul>
          <p class="actions">
            {next ? (
              <a class="button" href={next} rel="next">
                More tiles
              </a>
            ) : null}
            <a class="button quiet" href={sheet}>
              Contact sheet of these, to print
            </a>
          </p>
        </>
      )}
    </section>
  );
};

/** As many as stand in a row at a desk; on a phone the first two rows and a half. */
const firstRow = 5;

type NothingProps = { narrowed: boolean; uncoloured: boolean; after: string | undefined };

const Nothing = ({ narrowed, uncoloured, after }: NothingProps) => {
  if (uncoloured)
    return (
      <p>
        No tile has a colour yet. Colours are measured with an instrument, or read from a picture,
        on a tile's own page; then they can be looked for here.
      </p>
    );
  if (after) return <p>There are no tiles after these.</p>;
  if (narrowed)
    return <p>No tile fits all of that. Leave something out, or look at all of them.</p>;
  return (
    <p>
      No tile is on record yet. They are added from the page of the recipe that they were fired for.
    </p>
  );
};
