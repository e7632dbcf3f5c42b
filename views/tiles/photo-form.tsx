import { type Fault, Field, idOfField } from "../parts/field.tsx";

type PhotoFormProps = { tileId: string; alt: string | undefined; faults: readonly Fault[] };

/** Sends one picture, from the phone's camera or a file. */
export const PhotoForm = ({ tileId, alt, faults }: PhotoFormProps) => {
  const fault = faults.find(({ path }) => path === "photo")?.says;
  const id = idOfField("photo");
  return (
    <section>
      <h2>Add a picture</h2>
      <form method="post" action={`/tiles/${tileId}/photos`} enctype="multipart/form-data">
        <div class={fault ? "field field-faulty" : "field"}>
          <label for={id}>
            Picture<span class="field-required"> (required)</span>
          </label>
          <span class="field-hint" id={`${id}-hint`}>
            JPEG, PNG or WebP, at most 20 MB. Where and with what it was taken is left out.
          </span>
          {fault ? (
            <span class="field-fault" id={`${id}-fault`}>
              <span class="hidden-words">To put right: </span>
              {fault}
            </span>
          ) : null}
          <input
            id={id}
            name="photo"
            type="file"
            accept="image/jpeg,image/png,image/webp"
            required
            aria-describedby={fault ? `${id}-fault ${id}-hint` : `${id}-hint`}
            aria-invalid={fault ? "true" : undefined}
          />
        </div>
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
