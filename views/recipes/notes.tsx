import { NoteForm } from "./note-form.tsx";
import type { ShownNote, ShownRecipe, ShownRevision } from "./types.ts";

type NotesProps = {
  recipe: ShownRecipe;
  revision: ShownRevision;
  notes: readonly ShownNote[];
  mayNote: boolean;
  mayRemove: boolean;
  idempotencyKey: string;
};

/** What people said of a recipe, each on the place that it was put on. */
export const Notes = ({
  recipe,
  revision,
  notes,
  mayNote,
  mayRemove,
  idempotencyKey,
}: NotesProps) => (
  <section id="notes">
    <h2>Notes</h2>
    {notes.length === 0 ? <p>Nobody has put a note on this recipe yet.</p> : null}
    <ol class="notes">
      {notes.map((note) => (
        <li id={`note-${note.id}`} class="note">
          <p class="note-on">
            <a href={`/recipes/${recipe.slug}/revisions/${note.revision}`}>
              Revision {note.revision}
            </a>
            {note.anchor.kind === "whole" ? ", on the whole" : `, on ${note.snapshot.says}`}
            <Moved note={note} revision={revision} />
          </p>
          {note.text === null ? (
            <p class="note-gone">A manager had the words of this note removed.</p>
          ) : (
            <p class="note-text">{note.text}</p>
          )}
          <p class="note-by">
            {note.by.name},{" "}
            <time datetime={note.at.toISOString()}>{note.at.toISOString().slice(0, 10)}</time>
          </p>
          {mayRemove && note.text !== null ? <RemoveNote id={note.id} /> : null}
        </li>
      ))}
    </ol>
    {mayNote ? (
      <NoteForm
        recipe={recipe}
        text=""
        revision={String(revision.number)}
        anchor={{ kind: "whole", key: "" }}
        lines={revision.lines}
        faults={[]}
        idempotencyKey={idempotencyKey}
      />
    ) : (
      <p class="sign-in-line">
        <a href={`/session/new?next=/recipes/${recipe.slug}`}>Sign in</a> to put a note on it.
      </p>
    )}
  </section>
);

/** What the line of a note reads on the revision that is looked at, where it has moved since. */
const Moved = ({ note, revision }: { note: ShownNote; revision: ShownRevision }) => {
  const { material, amount, part } = note.snapshot;
  if (note.anchor.kind !== "line" || note.revision === revision.number) return null;
  const now = revision.lines.find((line) => line.material.name === material && line.part === part);
  if (!now) return <> (not in revision {revision.number})</>;
  if (now.amount.toFixed() === amount) return null;
  return (
    <>
      {" "}
      ({now.amount.toFixed()} in revision {revision.number})
    </>
  );
};

const RemoveNote = ({ id }: { id: string }) => (
  <details class="remove">
    <summary>Remove its words</summary>
    <form method="post" action={`/notes/${id}/removal`}>
      <label for={`why-${id}`}>Why</label>
      <input id={`why-${id}`} name="why" required maxlength={500} />
      <button type="submit">Remove, and say so</button>
    </form>
  </details>
);
