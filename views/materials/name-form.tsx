import { FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";

type NameFormProps = {
  material: { slug: string; name: string };
  typed: Typed;
  faults: Faults;
  idempotencyKey: string;
};

/** What a powder is called elsewhere, to fill in. */
export const NameForm = ({ material, typed, faults, idempotencyKey }: NameFormProps) => (
  <section id="name-form">
    <h1>What {material.name} is called elsewhere</h1>
    <FaultSummary faults={faults} />
    <form method="post" action={`/materials/${material.slug}/names`}>
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <Field
        label="Name there"
        name="name"
        value={typed("name")}
        fault={faultAt(faults, "name")}
        required
        maxlength={80}
        autocomplete="off"
      />
      <Field
        label="Country or region"
        name="region"
        value={typed("region")}
        fault={faultAt(faults, "region")}
        required
        maxlength={60}
      />
      <TextArea
        label="Which to buy under that word, and which not"
        name="caution"
        value={typed("caution")}
        fault={faultAt(faults, "caution")}
        hint="One word can name two grades. Say how to tell the right one."
        rows={3}
        maxlength={500}
      />
      <p class="actions">
        <button type="submit">Add the name</button>
        <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
      </p>
    </form>
  </section>
);
