import { Choice, type Fault, Field, faultAt, idOfField } from "../parts/field.tsx";
import { DayOf } from "../tiles/day.tsx";
import { type Photo, TilePhoto } from "../tiles/photo.tsx";

export type ShownReport = { sha256: string; size: number; by: { name: string }; at: Date };
export type ShownTestPhoto = Photo & { id: string; taken: "before" | "after" };

type ReportsProps = { testId: string; reports: readonly ShownReport[] };

/** The laboratory's reports as they came, to be taken along and never opened here. */
export const Reports = ({ testId, reports }: ReportsProps) =>
  reports.length === 0 ? null : (
    <section>
      <h2>The report itself</h2>
      <ul>
        {reports.map(({ sha256, size, by, at }) => (
          <li>
            <a href={`/tests/${testId}/report/${sha256}`}>
              PDF, {Math.max(1, Math.round(size / 1024))} KB
            </a>
            , sent by {by.name}, <DayOf at={at} />
          </li>
        ))}
      </ul>
    </section>
  );

const words = { before: "Before the test", after: "After the test" } as const;
const sizes = "(width >= 40rem) 20rem, 100vw";

type PicturesProps = { photos: readonly ShownTestPhoto[]; mayRemove: boolean };

/** The tile before and after, side by side where there is room. */
export const BeforeAndAfter = ({ photos, mayRemove }: PicturesProps) =>
  photos.length === 0 ? null : (
    <section>
      <h2>Before and after</h2>
      <div class="before-after">
        {(["before", "after"] as const).map((taken) => (
          <div>
            <h3>{words[taken]}</h3>
            {photos.every((photo) => photo.taken !== taken) ? <p>No picture.</p> : null}
            {photos
              .filter((photo) => photo.taken === taken)
              .map((photo) => (
                <figure class="gallery-tile">
                  <TilePhoto photo={photo} instead={`The tile ${taken} the test`} sizes={sizes} />
                  {photo.alt === "" ? null : <figcaption>{photo.alt}</figcaption>}
                  {mayRemove && !photo.removed ? (
                    <p>
                      <a href={`/photos/${photo.sha256}/removal`}>Remove this picture for good</a>
                    </p>
                  ) : null}
                </figure>
              ))}
          </div>
        ))}
      </div>
    </section>
  );

type FileFieldProps = {
  name: string;
  label: string;
  hint: string;
  accept: string;
  fault: string | undefined;
};

const FileField = ({ name, label, hint, accept, fault }: FileFieldProps) => {
  const id = idOfField(name);
  return (
    <div class={fault ? "field field-faulty" : "field"}>
      <label for={id}>
        {label}
        <span class="field-required"> (required)</span>
      </label>
      <span class="field-hint" id={`${id}-hint`}>
        {hint}
      </span>
      {fault ? (
        <span class="field-fault" id={`${id}-fault`}>
          <span class="hidden-words">To put right: </span>
          {fault}
        </span>
      ) : null}
      <input
        id={id}
        name={name}
        type="file"
        accept={accept}
        required
        aria-describedby={fault ? `${id}-fault ${id}-hint` : `${id}-hint`}
        aria-invalid={fault ? "true" : undefined}
      />
    </div>
  );
};

type FileFormsProps = {
  testId: string;
  faults: readonly Fault[];
  typed: { alt?: string | undefined; taken?: string | undefined };
};

/** Sends the laboratory's report. */
export const ReportForm = ({ testId, faults }: Omit<FileFormsProps, "typed">) => (
  <section>
    <h2>Put the report with it</h2>
    <form method="post" action={`/tests/${testId}/report`} enctype="multipart/form-data">
      <FileField
        name="report"
        label="The laboratory's report"
        hint="A PDF, at most 20 MB. Whoever may read this test may take it along, names in it too."
        accept="application/pdf"
        fault={faultAt(faults, "report")}
      />
      <p class="actions">
        <button type="submit">Send the report</button>
      </p>
    </form>
  </section>
);

/** Sends a picture of the tile before or after the test. */
export const TestPhotoForm = ({ testId, faults, typed }: FileFormsProps) => (
  <section>
    <h2>Add a picture</h2>
    <form method="post" action={`/tests/${testId}/photos`} enctype="multipart/form-data">
      <FileField
        name="photo"
        label="Picture"
        hint="JPEG, PNG or WebP, at most 20 MB. Where and with what it was taken is left out."
        accept="image/jpeg,image/png,image/webp"
        fault={faultAt(faults, "photo")}
      />
      <Choice
        name="taken"
        label="Taken"
        required
        value={typed.taken}
        fault={faultAt(faults, "taken")}
        options={[
          { value: "before", label: "before the test" },
          { value: "after", label: "after the test" },
        ]}
      />
      <Field
        name="alt"
        label="What it shows"
        maxlength={500}
        value={typed.alt}
        fault={faultAt(faults, "alt")}
        hint="For who cannot see it: gloss, colour, marks."
      />
      <p class="actions">
        <button type="submit">Send the picture</button>
      </p>
    </form>
  </section>
);
