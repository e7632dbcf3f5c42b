import { type Fault, faultAt } from "../parts/field.tsx";

type PictureFieldsProps = { resultId: string; faults: readonly Fault[] };

/** Hangs one picture on what came of a point. */
export const PictureFields = ({ resultId, faults }: PictureFieldsProps) => {
  const fault = faultAt(faults, "photo");
  const id = `photo-${resultId}`;
  return (
    <details class="screen-only" open={fault !== undefined}>
      <summary>Add a picture of it</summary>
      <form
        method="post"
        action={`/trials/results/${resultId}/photos`}
        enctype="multipart/form-data"
      >
        <div class={fault ? "field field-faulty" : "field"} id="field-photo">
          <label for={id}>The picture</label>
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
            aria-describedby={fault ? `${id}-fault ${id}-hint` : `${id}-hint`}
            aria-invalid={fault ? "true" : undefined}
          />
        </div>
        <div class="field">
          <label for={`${id}-alt`}>What it shows</label>
          <input id={`${id}-alt`} name="alt" maxlength={500} />
        </div>
        <p class="actions">
          <button type="submit">Send the picture</button>
        </p>
      </form>
    </details>
  );
};
