import { NoteForm } from "./note-form.tsx";
import { type NotableTile, placesOf } from "./note-places.ts";
import { Thread } from "./thread.tsx";
import type { ShownNote, ShownRecipe, ShownRevision } from "./types.ts";

type NotesProps = {
  recipe: ShownRecipe;
  revision: ShownRevision;
  /** Those of the melt; a note can be put on the ones of this revision. */
  tiles: readonly NotableTile[];
  notes: readonly ShownNote[];
  viewer: { id: string; role: string } | undefined;
  idempotencyKey: string;
};

/** What people said of a recipe, each on the place that it was put on. */
export const Notes = ({ recipe, revision, tiles, notes, viewer, idempotencyKey }: NotesProps) => (
  <section id="notes">
    <h2>Notes</h2>
    {notes.length === 0 ? <p>Nobody has put a note on this recipe yet.</p> : null}
    <ol class="notes">
      {notes.map((note) => (
        <Thread slug={recipe.slug} note={note} viewer={viewer} idempotencyKey={idempotencyKey} />
      ))}
    </ol>
    {viewer ? (
      <NoteForm
        recipe={recipe}
        text=""
        revision={String(revision.number)}
        anchor={{ kind: "whole", key: "" }}
        places={placesOf(recipe, revision, tiles)}
        blocking={false}
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
