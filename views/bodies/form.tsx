import { type Faults, faultAt, type Typed } from "../materials/typed.ts";
import { FaultSummary, Field } from "../parts/field.tsx";
import { SheetFields } from "./sheet-fields.tsx";

type FormProps = { typed: Typed; faults: Faults; idempotencyKey: string };

/** The form that puts a body on record with its first sheet. */
export const BodyForm = ({ typed, faults, idempotencyKey }: FormProps) => (
  <section id="body-form">
    <h1>Add a body</h1>
    <p>
      Copy what the supplier's sheet says, or what was measured here, and name the source. Leave out
      what nobody knows.
    </p>
    <FaultSummary faults={faults} />
    <form method="post" action="/bodies">
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <Field
        label="Name"
        name="name"
        required
        maxlength={80}
        value={typed("name")}
        hint="Such as: Loft stoneware. What it is called on the bag, and which grade."
        fault={faultAt(faults, "name")}
      />
      <SheetFields typed={typed} faults={faults} />
      <p class="actions">
        <button type="submit">Add the body</button>
        <a href="/bodies">Back to the bodies</a>
      </p>
    </form>
  </section>
);

type SheetFormProps = FormProps & { body: { slug: string; name: string } };

/** The form that says anew what is known of a body. */
export const SheetForm = ({ body, typed, faults, idempotencyKey }: SheetFormProps) => (
  <section id="sheet-form">
    <h1>New sheet of {body.name}</h1>
    <p>
      The newest sheet counts from now on, and the earlier ones stay readable. Glazes that were
      judged by tiles on this body are judged again.
    </p>
    <FaultSummary faults={faults} />
    <form method="post" action={`/bodies/${body.slug}/sheets`}>
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <SheetFields typed={typed} faults={faults} />
      <p class="actions">
        <button type="submit">Put this sheet on record</button>
        <a href={`/bodies/${body.slug}`}>Back to {body.name}</a>
      </p>
    </form>
  </section>
);
