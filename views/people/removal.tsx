import { type Fault, FaultSummary, TextArea } from "../parts/field.tsx";
import { When } from "./when.tsx";

type What = "person" | "note" | "picture";

type RemovalProps = {
  what: What;
  /** Where the form goes and this page is. */
  path: string;
  /** The name, the words or the description, as it stands. */
  says: string | null;
  recipe: { slug: string; name: string } | null;
  removal: { at: Date; by: string | null; why: string } | null;
  why?: string | undefined;
  faults?: readonly Fault[] | undefined;
};

const words: Record<What, { head: string; goes: string; stays: string }> = {
  person: {
    head: "Remove a person",
    goes: "The name, the e-mail, the password, every session, and links to join that nobody used.",
    stays:
      "What they put on record: recipes, tiles, notes and analyses, under a pseudonym instead of the name. Names that stand inside somebody's words stay too; such a note can be removed by itself.",
  },
  note: {
    head: "Remove a note",
    goes: "The words of the note, as they read now and as they read before.",
    stays:
      "That there was a note, where, by whom and when, with the digest of its words; answers to it; and who removed it and why.",
  },
  picture: {
    head: "Remove a picture",
    goes: "The picture in every size, on every tile that shows it.",
    stays:
      "That there was a picture, by whom and when, with its digest and the description beside it; the tile; and who removed it and why.",
  },
};

/** Before something is forgotten: what goes and what stays. Afterwards: who did it and why. */
export const RemovalPage = ({
  what,
  path,
  says,
  recipe,
  removal,
  why,
  faults = [],
}: RemovalProps) => (
  <section>
    <h1>{removal ? "Removed" : words[what].head}</h1>
    <FaultSummary faults={faults} />
    {says ? (
      <blockquote>
        <p>{says}</p>
      </blockquote>
    ) : null}
    {recipe ? (
      <p>
        On the recipe <a href={`/recipes/${recipe.slug}`}>{recipe.name}</a>
      </p>
    ) : null}
    {removal ? (
      <p>
        Removed <When at={removal.at} clock />
        {removal.by ? ` by ${removal.by}` : ""}: {removal.why}
      </p>
    ) : (
      <RemovalForm what={what} path={path} why={why} faults={faults} />
    )}
    {what === "person" ? (
      <p>
        <a href="/people">All people</a>
      </p>
    ) : null}
  </section>
);

type FormProps = Pick<RemovalProps, "what" | "path" | "why"> & { faults: readonly Fault[] };

const RemovalForm = ({ what, path, why, faults }: FormProps) => (
  <>
    <h2>What goes, for good</h2>
    <p>{words[what].goes}</p>
    <h2>What stays</h2>
    <p>{words[what].stays}</p>
    <p>Copies in backups made before today go when those backups do.</p>
    <form method="post" action={path}>
      <TextArea
        label="Why"
        name="why"
        value={why}
        required
        rows={3}
        maxlength={1000}
        hint="Stays on record beside the removal. Leave out what is to be forgotten."
        fault={faults.find((fault) => fault.path === "why")?.says}
      />
      <p class="actions">
        <button type="submit">Remove for good</button>
      </p>
    </form>
  </>
);
