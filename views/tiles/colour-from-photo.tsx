import { type Fault, FaultSummary, Field, faultAt, idOfField } from "../parts/field.tsx";
import { labWords } from "./colour-words.ts";
import { Swatch } from "./swatch.tsx";

type Place = { x: number; y: number };

export type ColourFromPhotoProps = {
  tile: { id: string; recipe: { name: string }; cone: string };
  photo: { id: string; sha256: string; width: number; height: number };
  /** How wide the picture stands on the page; the browser tells a press in these pixels. */
  shownWidth: number;
  /** Where the grey patch and the glaze were pressed, as shares, as far as that went. */
  neutral: Place | undefined;
  spot: Place | undefined;
  /** What the two places come to. */
  lab: { lightness: number; a: number; b: number } | undefined;
  neutralLightness: string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/**
 * Reads a tile's colour from a picture of it: the grey patch is pressed first, then the glaze. The
 * picture is a submit button that tells where it was pressed, so it needs no script; the places can
 * also be written down.
 */
export const ColourFromPhoto = (props: ColourFromPhotoProps) => {
  const { tile, neutral, spot, lab, faults } = props;
  return (
    <article>
      <h1>
        Read the colour of {tile.recipe.name}, cone {tile.cone}
      </h1>
      <p>
        <a href={`/tiles/${tile.id}/colours`}>Back to its colours</a>
      </p>
      <FaultSummary faults={faults} />
      {neutral && spot ? (
        <>
          <Marked {...props} />
          {lab ? (
            <div class="colour">
              <Swatch colour={lab} />
              <p>
                <span class="colour-figures">{labWords(lab)}</span>
                <br />
                camera: for comparing, not for measuring
              </p>
            </div>
          ) : null}
        </>
      ) : (
        <Press {...props} />
      )}
      <PlacesForm {...props} />
    </article>
  );
};

const addressOf = ({ tile, photo }: ColourFromPhotoProps): string =>
  `/tiles/${tile.id}/photos/${photo.id}/colour`;

const Press = (props: ColourFromPhotoProps) => {
  const { photo, neutral, shownWidth } = props;
  return (
    <form method="get" action={addressOf(props)}>
      <h2>{neutral ? "Second: press the glaze" : "First: press the grey patch"}</h2>
      <p>
        {neutral
          ? "Where the coat is even, without shine and away from the edge. A small square around it is averaged."
          : "The grey card, or whatever in the picture is neutral. A small square around it is averaged."}
      </p>
      {neutral ? (
        <>
          <input type="hidden" name="neutral.x" value={String(neutral.x)} />
          <input type="hidden" name="neutral.y" value={String(neutral.y)} />
        </>
      ) : null}
      <input
        class="press"
        type="image"
        name={neutral ? "glaze" : "grey"}
        src={`/photos/${photo.sha256}/600`}
        alt={neutral ? "The picture: press the glaze" : "The picture: press the grey patch"}
        width={shownWidth}
        height={Math.round((shownWidth * photo.height) / photo.width)}
      />
    </form>
  );
};

/** The picture with both squares drawn in. */
const Marked = (props: ColourFromPhotoProps) => {
  const { photo, shownWidth, neutral, spot } = props;
  const side = Math.min(photo.width, photo.height) / 30;
  return (
    <>
      <svg
        class="marked"
        viewBox={`0 0 ${photo.width} ${photo.height}`}
        width={shownWidth}
        height={Math.round((shownWidth * photo.height) / photo.width)}
        role="img"
      >
        <title>The picture with the two places that were read: 1 the grey patch, 2 the glaze</title>
        <image href={`/photos/${photo.sha256}/600`} width={photo.width} height={photo.height} />
        {[neutral, spot].map((place, at) =>
          place ? (
            <Mark at={at + 1} x={place.x * photo.width} y={place.y * photo.height} side={side} />
          ) : null,
        )}
      </svg>
      <p>
        1 is the grey patch, 2 the glaze. <a href={addressOf(props)}>Press them again</a>
      </p>
    </>
  );
};

type MarkProps = { at: number; x: number; y: number; side: number };

const Mark = ({ at, x, y, side }: MarkProps) => (
  <>
    <rect class="mark-halo" x={x - side} y={y - side} width={side * 2} height={side * 2} />
    <rect class="mark" x={x - side} y={y - side} width={side * 2} height={side * 2} />
    <text class="mark-number" x={x + side * 1.4} y={y + side} font-size={side * 2.4}>
      {at}
    </text>
  </>
);

const PlacesForm = (props: ColourFromPhotoProps) => {
  const { tile, photo, neutral, spot, faults, neutralLightness } = props;
  const pressed = neutral !== undefined && spot !== undefined;
  const places = (
    <>
      <PlaceFields name="neutral" legend="Grey patch" place={neutral} faults={faults} />
      <PlaceFields name="spot" legend="Glaze" place={spot} faults={faults} />
    </>
  );
  const form = (
    <form method="post" action={`/tiles/${tile.id}/colours`}>
      <input type="hidden" name="from" value="camera" />
      <input type="hidden" name="photo" value={photo.id} />
      <input type="hidden" name="idempotencyKey" value={props.idempotencyKey} />
      <Field
        name="neutralLightness"
        label="Lightness L* of the grey patch"
        value={neutralLightness}
        inputmode="decimal"
        hint="A photographer's grey card has 50, which is assumed where nothing else is said."
        fault={faultAt(faults, "neutralLightness")}
      />
      {pressed ? (
        <details open={faults.length > 0}>
          <summary>The two places as numbers</summary>
          {places}
        </details>
      ) : (
        places
      )}
      <p class="actions">
        <button type="submit">Put this colour on record</button>
      </p>
    </form>
  );
  if (pressed) return form;
  return (
    <details open={faults.length > 0}>
      <summary>Write the places down instead</summary>
      {form}
    </details>
  );
};

type PlaceFieldsProps = {
  name: "neutral" | "spot";
  legend: string;
  place: Place | undefined;
  faults: readonly Fault[];
};

const PlaceFields = ({ name, legend, place, faults }: PlaceFieldsProps) => {
  const told = (axis: "x" | "y") => ({
    name: `${name}.${axis}`,
    value: place ? String(place[axis]) : "",
    fault: faultAt(faults, `${name}.${axis}`),
    inputmode: "decimal" as const,
    required: true,
  });
  return (
    <fieldset id={idOfField(name)} tabindex={-1}>
      <legend>{legend}</legend>
      <Field
        {...told("x")}
        label={`${legend}, from the left`}
        hint="A share of the width: 0.5 is the middle."
      />
      <Field
        {...told("y")}
        label={`${legend}, from the top`}
        hint="A share of the height: 0.5 is the middle."
      />
    </fieldset>
  );
};
