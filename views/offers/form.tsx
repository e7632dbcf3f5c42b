import { type Fault, FaultSummary, Field, TextArea } from "../parts/field.tsx";

type OfferFormProps = {
  recipe: { slug: string; name: string; owner: { name: string } };
  typed: { from: string; why: string };
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** Offers a revision of a fork back to the recipe that it came from. */
export const OfferForm = ({ recipe, typed, faults, idempotencyKey }: OfferFormProps) => {
  const fault = (name: string) => faults.find(({ path }) => path === name)?.says;
  return (
    <section>
      <h1>Offer it back to {recipe.name}</h1>
      <p>
        {recipe.owner.name} sees your revision beside theirs and takes in what you changed, or says
        why not. Your own recipe stays as it is. What is taken in names you as one of its authors,
        so you cannot review it then.
      </p>
      <form method="post" action={`/recipes/${recipe.slug}/offers`}>
        <FaultSummary faults={faults} />
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Field
          label="Your revision"
          name="from"
          value={typed.from}
          fault={fault("from")}
          hint="As in its address: ebb-green@2 is revision 2 of ebb-green."
          maxlength={100}
          autocomplete="off"
          required
        />
        <TextArea
          label="Why"
          name="why"
          value={typed.why}
          fault={fault("why")}
          hint="What you changed, and what it is good for."
          rows={4}
          maxlength={2000}
          required
        />
        <p class="actions">
          <button type="submit">Offer it</button>
          <a href={`/recipes/${recipe.slug}`}>Back to {recipe.name}</a>
        </p>
      </form>
    </section>
  );
};
