import { type Fault, FaultSummary, idOfField } from "../parts/field.tsx";

/** What can be done with a note by words. */
export type Doing = "reply" | "close" | "overrule" | "edit";

type Words = { path: string; name: "text" | "why"; opens: string; asks: string; sends: string };

const words: Record<Doing, Words> = {
  reply: {
    path: "replies",
    name: "text",
    opens: "Reply",
    asks: "Your reply",
    sends: "Put the reply",
  },
  close: {
    path: "answer",
    name: "text",
    opens: "Close the objection",
    asks: "What answers the objection",
    sends: "Close it",
  },
  overrule: {
    path: "answer",
    name: "why",
    opens: "Overrule the objection",
    asks: "Why it does not stand in the way",
    sends: "Overrule it, and say so",
  },
  edit: {
    path: "text",
    name: "text",
    opens: "Change the words",
    asks: "The words from now on",
    sends: "Keep these words",
  },
};

type WordsFormProps = {
  noteId: string;
  does: Doing;
  typed: string;
  faults?: readonly Fault[] | undefined;
  idempotencyKey: string;
  /** By itself on a page, where its faults lead to its field. */
  alone?: boolean | undefined;
};

/** One text and one button: a reply, the end of an objection, or other words for a note. */
export const WordsForm = ({
  noteId,
  does,
  typed,
  faults = [],
  idempotencyKey,
  alone,
}: WordsFormProps) => {
  const { path, name, asks, sends } = words[does];
  const id = alone ? idOfField(name) : `${does}-${noteId}`;
  const fault = faults.find((one) => one.path === name)?.says;
  const action = `/notes/${noteId}/${path}`;
  return (
    <form
      class="words-form"
      method="post"
      action={action}
      data-draft={does === "reply" ? action : undefined}
    >
      <FaultSummary faults={faults} />
      <input type="hidden" name="idempotencyKey" value={`${idempotencyKey}-${does}-${noteId}`} />
      {does === "overrule" ? <input type="hidden" name="overrule" value="true" /> : null}
      <div class={fault ? "field field-faulty" : "field"}>
        <label for={id}>
          {asks}
          <span class="field-required"> (required)</span>
        </label>
        {fault ? (
          <span class="field-fault" id={`${id}-fault`}>
            <span class="hidden-words">To put right: </span>
            {fault}
          </span>
        ) : null}
        <textarea
          id={id}
          name={name}
          rows={3}
          required
          maxlength={8000}
          aria-describedby={fault ? `${id}-fault` : undefined}
          aria-invalid={fault ? "true" : undefined}
        >
          {typed}
        </textarea>
      </div>
      <button type="submit">{sends}</button>
    </form>
  );
};

/** The same form below a note, folded until somebody wants it. */
export const FoldedForm = (props: Omit<WordsFormProps, "alone" | "faults">) => (
  <details class="note-act">
    <summary>{words[props.does].opens}</summary>
    <WordsForm {...props} />
  </details>
);

type WordsPageProps = WordsFormProps & { recipe: { slug: string; name: string } };

/** The form by itself, where something in it has to be put right. */
export const WordsPage = ({ recipe, ...form }: WordsPageProps) => (
  <section>
    <h1>
      {words[form.does].opens}: a note on {recipe.name}
    </h1>
    <WordsForm {...form} alone />
    <p>
      <a href={`/recipes/${recipe.slug}#note-${form.noteId}`}>Back to the note</a>
    </p>
  </section>
);
