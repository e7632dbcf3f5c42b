import { type Fault, FaultSummary, idOfField, TextArea } from "../parts/field.tsx";
import type { ShownLine } from "./types.ts";

type NoteFormProps = {
  recipe: { slug: string; name: string };
  text: string;
  revision: string;
  anchor: { kind: string; key: string };
  /** The lines that a note may be put on; without them the place that was chosen is kept. */
  lines?: readonly ShownLine[] | undefined;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** A note on the whole of a revision or on one line of it. */
export const NoteForm = ({
  recipe,
  text,
  revision,
  anchor,
  lines,
  faults,
  idempotencyKey,
}: NoteFormProps) => {
  const action = `/recipes/${recipe.slug}/notes`;
  return (
    <form
      class="note-form"
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
      {lines ? <Place lines={lines} revision={revision} /> : <Kept anchor={anchor} />}
      <TextArea
        label={`Your note on revision ${revision}`}
        name="text"
        value={text}
        fault={faults.find(({ path }) => path === "text")?.says}
        rows={3}
        maxlength={8000}
        required
      />
      <button type="submit">Put the note</button>
    </form>
  );
};

/** The place as one choice: the whole, or a line. */
const Place = ({ lines, revision }: { lines: readonly ShownLine[]; revision: string }) => (
  <div class="field">
    <label for={idOfField("on")}>On</label>
    <select id={idOfField("on")} name="on">
      <option value="whole">the whole of revision {revision}</option>
      {lines.map((line) => (
        <option value={`line-${line.position}`}>
          the line {line.material.name} {line.amount.toFixed()}
        </option>
      ))}
    </select>
  </div>
);

const Kept = ({ anchor }: { anchor: { kind: string; key: string } }) => (
  <>
    <input type="hidden" name="anchor.kind" value={anchor.kind || "whole"} />
    {anchor.key ? <input type="hidden" name="anchor.key" value={anchor.key} /> : null}
  </>
);

type NotePageProps = NoteFormProps;

export const NotePage = (props: NotePageProps) => (
  <section>
    <h1>A note on {props.recipe.name}</h1>
    <NoteForm {...props} />
    <p>
      <a href={`/recipes/${props.recipe.slug}`}>Back to {props.recipe.name}</a>
    </p>
  </section>
);
