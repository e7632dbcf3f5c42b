import { type Fault, FaultSummary, idOfField, TextArea } from "../parts/field.tsx";
import type { NotePlace } from "./note-places.ts";

type NoteFormProps = {
  recipe: { slug: string; name: string };
  text: string;
  revision: string;
  anchor: { kind: string; key: string };
  /** What the note may be put on; without them the place that was chosen is kept. */
  places?: readonly NotePlace[] | undefined;
  blocking: boolean;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** A note on the whole of a revision or on one place of it; a ticked box makes it an objection. */
export const NoteForm = ({
  recipe,
  text,
  revision,
  anchor,
  places,
  blocking,
  faults,
  idempotencyKey,
}: NoteFormProps) => {
  const action = `/recipes/${recipe.slug}/notes`;
  return (
    <form
      class="note-form screen-only"
      method="post"
      action={action}
      hx-post={action}
      hx-target="#main"
      hx-select="#main"
      hx-swap="outerHTML"
      data-draft={action}
    >
      <FaultSummary faults={faults} />
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <input type="hidden" name="revision" value={revision} />
      {places ? <Place places={places} anchor={anchor} /> : <Kept anchor={anchor} />}
      <TextArea
        label={`Your note on revision ${revision}`}
        name="text"
        value={text}
        fault={faults.find(({ path }) => path === "text")?.says}
        rows={3}
        maxlength={8000}
        required
      />
      <label class="tick">
        <input type="checkbox" name="blocking" checked={blocking} />
        This is an objection: it stands in the way of approval until it is closed
      </label>
      <button type="submit">Put the note</button>
    </form>
  );
};

/** The place as one choice: the whole, a line, an oxide or a tile. */
const Place = ({
  places,
  anchor,
}: Pick<NoteFormProps, "anchor"> & { places: readonly NotePlace[] }) => {
  const chosen = anchor.key ? `${anchor.kind}-${anchor.key}` : "whole";
  return (
    <div class="field">
      <label for={idOfField("on")}>On</label>
      <select id={idOfField("on")} name="on">
        {places.map(({ value, label }) => (
          <option value={value} selected={value === chosen}>
            {label}
          </option>
        ))}
      </select>
    </div>
  );
};

const Kept = ({ anchor }: { anchor: { kind: string; key: string } }) => (
  <>
    <input type="hidden" name="anchor.kind" value={anchor.kind || "whole"} />
    {anchor.key ? <input type="hidden" name="anchor.key" value={anchor.key} /> : null}
  </>
);

/** The form by itself, where something in it has to be put right. */
export const NotePage = (props: NoteFormProps) => (
  <section>
    <h1>A note on {props.recipe.name}</h1>
    <NoteForm {...props} />
    <p>
      <a href={`/recipes/${props.recipe.slug}`}>Back to {props.recipe.name}</a>
    </p>
  </section>
);
