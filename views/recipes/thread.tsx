import type { Child } from "hono/jsx";
import { When } from "../people/when.tsx";
import type { ShownNote } from "./types.ts";
import { FoldedForm } from "./words-form.tsx";

type Viewer = { id: string; role: string } | undefined;

type ThreadProps = {
  slug: string;
  note: ShownNote;
  viewer: Viewer;
  idempotencyKey: string;
};

/** A note with the replies to it, and what the reader can do with each. */
export const Thread = ({ slug, note, viewer, idempotencyKey }: ThreadProps) => (
  <li id={`note-${note.id}`} class="note">
    <p class="note-on">
      <a href={`/recipes/${slug}/revisions/${note.revision}`}>Revision {note.revision}</a>
      {note.anchor.kind === "whole" ? ", on the whole" : `, on ${note.snapshot.says}`}
    </p>
    {note.moved === null ? null : <p class="note-moved">Moved since: {note.moved}.</p>}
    {note.quoted ? (
      <p class="note-moved">Quoted: it came {note.quoted}, and counts for nothing here.</p>
    ) : null}
    {note.blocking ? <Objection note={note} /> : null}
    <Said note={note} />
    {note.replies.length === 0 ? null : (
      <ol class="replies">
        {note.replies.map((reply) => (
          <li id={`note-${reply.id}`} class="reply">
            <Said note={reply} />
            {viewer ? (
              <Acts>
                <OwnWords note={reply} viewer={viewer} idempotencyKey={idempotencyKey} />
              </Acts>
            ) : null}
          </li>
        ))}
      </ol>
    )}
    {viewer ? (
      <Acts>
        <FoldedForm noteId={note.id} does="reply" typed="" idempotencyKey={idempotencyKey} />
        <Ending note={note} viewer={viewer} idempotencyKey={idempotencyKey} />
        <OwnWords note={note} viewer={viewer} idempotencyKey={idempotencyKey} />
      </Acts>
    ) : null}
  </li>
);

/** Where an objection stands, as a word in a frame; how it ended is among the replies. */
const Objection = ({ note: { closed } }: { note: ShownNote }) => {
  if (closed === null) {
    return (
      <p>
        <span class="standing-frame objection-open">Objection, open</span> It stands in the way of
        approval until it is closed.
      </p>
    );
  }
  return (
    <p>
      <span class="standing-frame objection-closed">
        {closed.overruled ? "Objection, overruled" : "Objection, closed"}
      </span>{" "}
      by {closed.by.name}, <When at={closed.at} />, with the reason below.
    </p>
  );
};

/** The words as they read now, whose they are, and what they were before. */
const Said = ({ note }: { note: ShownNote }) => {
  const before = note.versions.slice(0, -1);
  return (
    <>
      {note.text === null ? (
        <p class="note-gone">A manager had the words of this note removed.</p>
      ) : (
        <p class="note-text">{note.text}</p>
      )}
      <p class="note-by">
        {note.by.name},{" "}
        <time datetime={note.at.toISOString()}>{note.at.toISOString().slice(0, 10)}</time>
      </p>
      {before.length === 0 ? null : (
        <details class="note-versions">
          <summary>Edited, {note.versions.length} versions</summary>
          <ol>
            {before.map(({ text, at }) => (
              <li>
                <p class="note-text">{text}</p>
                <p class="note-by">
                  as it read from <When at={at} clock />
                </p>
              </li>
            ))}
          </ol>
        </details>
      )}
    </>
  );
};

const Acts = ({ children }: { children?: Child }) => (
  <div class="note-acts screen-only">{children}</div>
);

type ActProps = { note: ShownNote; viewer: NonNullable<Viewer>; idempotencyKey: string };

/** How an open objection can be ended by who reads it: closed where it is theirs, overruled by a manager. */
const Ending = ({ note, viewer, idempotencyKey }: ActProps) => {
  if (!note.blocking || note.closed !== null) return null;
  const given = { noteId: note.id, typed: "", idempotencyKey };
  return (
    <>
      {note.by.id === viewer.id ? <FoldedForm {...given} does="close" /> : null}
      {viewer.role === "manager" ? <FoldedForm {...given} does="overrule" /> : null}
    </>
  );
};

/** One's own words can be changed; a manager can have anybody's removed. */
const OwnWords = ({ note, viewer, idempotencyKey }: ActProps) => {
  if (note.text === null) return null;
  return (
    <>
      {note.by.id === viewer.id ? (
        <FoldedForm
          noteId={note.id}
          does="edit"
          typed={note.text}
          idempotencyKey={idempotencyKey}
        />
      ) : null}
      {viewer.role === "manager" ? <RemoveNote id={note.id} /> : null}
    </>
  );
};

const RemoveNote = ({ id }: { id: string }) => (
  <details class="note-act remove">
    <summary>Remove its words</summary>
    <form method="post" action={`/notes/${id}/removal`}>
      <label for={`why-${id}`}>Why</label>
      <input id={`why-${id}`} name="why" required maxlength={500} />
      <button type="submit">Remove, and say so</button>
    </form>
  </details>
);
