import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";
import type { ShownColour } from "./colour-words.ts";
import { ColourLine } from "./swatch.tsx";

type ColoursPageProps = {
  tile: { id: string; recipe: { name: string }; cone: string };
  /** Newest first. */
  colours: readonly ShownColour[];
  /** Its pictures that are still there, in the order in which they came. */
  photos: readonly { id: string; alt: string }[];
  mayChange: boolean;
  faults: readonly Fault[];
  typed: (path: string) => string;
  idempotencyKey: string;
};

/** Everything that was read of a tile's colour, and the ways to read it again. */
export const ColoursPage = (props: ColoursPageProps) => {
  const { tile, colours, mayChange, faults } = props;
  return (
    <article>
      <h1>
        Colour of a tile of {tile.recipe.name}, cone {tile.cone}
      </h1>
      <p>
        <a href={`/tiles/${tile.id}`}>Back to the tile</a>
      </p>
      <FaultSummary faults={faults} />
      {colours.length === 0 ? <p>Nobody has read its colour yet.</p> : null}
      {colours.length === 0 ? null : (
        <ol class="colours">
          {colours.map((colour) => (
            <li>
              <ColourLine colour={colour} />
            </li>
          ))}
        </ol>
      )}
      {mayChange ? (
        <>
          <InstrumentForm {...props} />
          <FromPictures {...props} />
        </>
      ) : null}
    </article>
  );
};

const InstrumentForm = ({ tile, faults, typed, idempotencyKey }: ColoursPageProps) => {
  const told = (name: string) => ({
    name,
    value: typed(name),
    fault: faultAt(faults, name),
    inputmode: "text" as const,
    required: true,
  });
  return (
    <form method="post" action={`/tiles/${tile.id}/colours`}>
      <h2>Off an instrument</h2>
      <p>
        CIE L*a*b* under the white D50, as most instruments give it. Measure where the coat is even,
        three times, and write down the middle one.
      </p>
      <input type="hidden" name="from" value="instrument" />
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <Field {...told("lab.0")} label="L*" hint="Lightness, 0 to 100." />
      <Field {...told("lab.1")} label="a*" hint="Green below 0, red above." />
      <Field {...told("lab.2")} label="b*" hint="Blue below 0, yellow above." />
      <p class="actions">
        <button type="submit">Put this colour on record</button>
      </p>
    </form>
  );
};

const FromPictures = ({ tile, photos }: ColoursPageProps) => (
  <section>
    <h2>From a picture</h2>
    <p>
      Only from a picture with something neutral in it: a photographer's grey card, or the unglazed
      back of a white tile. It takes out the tint of the lamp. Such a colour is for comparing, not
      for measuring.
    </p>
    {photos.length === 0 ? <p>There is no picture of this tile yet.</p> : null}
    <ul class="colour-photos">
      {photos.map(({ id, alt }, place) => (
        <li>
          <a href={`/tiles/${tile.id}/photos/${id}/colour`}>
            Read it from picture {place + 1}
            {alt === "" ? null : `: ${alt}`}
          </a>
        </li>
      ))}
    </ul>
  </section>
);
