import { type Fault, Field, idOfField } from "../parts/field.tsx";

type PhotoFormProps = { tileId: string; alt: string | undefined; faults: readonly Fault[] };

/** Sends one picture, from the phone's camera or from its library. */
export const PhotoForm = ({ tileId, alt, faults }: PhotoFormProps) => {
  const fault = faults.find(({ path }) => path === "photo")?.says;
  const id = idOfField("photo");
  return (
    <section>
      <h2>Add a picture</h2>
      <form method="post" action={`/tiles/${tileId}/photos`} enctype="multipart/form-data">
        <fieldset id={id} tabindex={-1}>
          <legend>The picture</legend>
          <p id={`${id}-hint`}>
            JPEG, PNG or WebP, at most 20 MB. Where and with what it was taken is left out.
          </p>
          {fault ? (
            <p class="field-fault" id={`${id}-fault`}>
              <span class="hidden-words">To put right: </span>
              {fault}
            </p>
          ) : null}
          <Source id={`${id}-camera`} label="Take it now with the camera" camera fault={fault} />
          <Source id={`${id}-library`} label="Choose one that is there" fault={fault} />
        </fieldset>
        <Field
          label="What it shows"
          name="alt"
          maxlength={500}
          value={alt}
          hint="For who cannot see it: surface, colour, where it breaks or runs."
          fault={faults.find(({ path }) => path === "alt")?.says}
        />
        <p class="actions">
          <button type="submit">Send the picture</button>
        </p>
      </form>
    </section>
  );
};

type SourceProps = { id: string; label: string; camera?: boolean; fault: string | undefined };

/** Two ways to the same field: a phone opens its camera for the one and its library for the other. */
const Source = ({ id, label, camera = false, fault }: SourceProps) => {
  const about = idOfField("photo");
  return (
    <div class={camera ? "field by-camera" : "field"}>
      <label for={id}>{label}</label>
      <input
        id={id}
        name="photo"
        type="file"
        accept="image/jpeg,image/png,image/webp"
        capture={camera ? "environment" : undefined}
        aria-describedby={fault ? `${about}-fault ${about}-hint` : `${about}-hint`}
        aria-invalid={fault ? "true" : undefined}
      />
    </div>
  );
};
