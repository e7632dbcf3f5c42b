import { type Fault, FaultSummary, Field } from "../parts/field.tsx";

type ForkPageProps = {
  recipe: { slug: string; name: string; owner: { name: string } };
  revision: number;
  name: string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** A recipe of one's own that starts where another stands. */
export const ForkPage = ({ recipe, revision, name, faults, idempotencyKey }: ForkPageProps) => {
  const action = `/recipes/${recipe.slug}/forks`;
  return (
    <section>
      <h1>Fork {recipe.name}</h1>
      <p>
        You get a recipe of your own that starts as revision {revision} of {recipe.name}, with the
        same lines and the same analyses. {recipe.owner.name}'s stays as it is, and both say where
        yours came from.
      </p>
      <form
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
        <input type="hidden" name="revision" value={String(revision)} />
        <Field
          label="Name of your glaze"
          name="name"
          value={name}
          fault={faults.find(({ path }) => path === "name")?.says}
          maxlength={80}
          required
          autocomplete="off"
        />
        <button type="submit">Fork it</button>
      </form>
    </section>
  );
};
