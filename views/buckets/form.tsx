import { type Fault, FaultSummary, Field } from "../parts/field.tsx";

type BucketFormProps = {
  typed: { recipe: string; revision: string; name: string; litres: string; test: boolean };
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** The form that puts a shared bucket of one revision on record. */
export const BucketForm = ({ typed, faults, idempotencyKey }: BucketFormProps) => {
  const faultOf = (name: string) => faults.find(({ path }) => path === name)?.says;
  return (
    <form method="post" action="/buckets">
      <h1>A shared bucket</h1>
      <p>
        A bucket follows the revision that it was mixed from, whatever the recipe becomes. It is
        flagged the moment that revision is no longer approved. It stays on hold until it was mixed
        and a proof tile came out.
      </p>
      <FaultSummary faults={faults} />
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <Field
        label="Recipe, as its address has it"
        name="recipe"
        value={typed.recipe}
        required
        maxlength={80}
        autocomplete="off"
        hint="The last part of its page's address, such as slack-water."
        fault={faultOf("recipe")}
      />
      <Field
        label="Revision"
        name="revision"
        value={typed.revision}
        required
        inputmode="numeric"
        autocomplete="off"
        fault={faultOf("revision")}
      />
      <Field
        label="What stands on the bucket"
        name="name"
        value={typed.name}
        required
        maxlength={80}
        autocomplete="off"
        fault={faultOf("name")}
      />
      <Field
        label="How much it holds"
        name="litres"
        value={typed.litres}
        required
        inputmode="decimal"
        autocomplete="off"
        unit="litres"
        fault={faultOf("litres")}
      />
      <label class="tick">
        <input type="checkbox" name="test" checked={typed.test} />
        This is a test bucket, of a revision that nobody has approved: decorative only, not for
        food, not for members' pots until approved
      </label>
      <p class="actions">
        <button type="submit">Add the bucket</button>
      </p>
    </form>
  );
};
