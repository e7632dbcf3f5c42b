import { type Fault, Field, faultAt, idOfField, TextArea } from "../parts/field.tsx";

export type ReadingFormProps = {
  bucketId: string;
  typed: (path: string) => string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** What was measured, on the spot and with wet hands. */
export const ReadingForm = ({ bucketId, typed, faults, idempotencyKey }: ReadingFormProps) => (
  <form method="post" action={`/buckets/${bucketId}/readings`} class="care-form">
    <h3>Measure it</h3>
    <p>
      Stir it from the bottom, let froth go, then weigh a measured litre. The flow is the seconds
      that your cup takes to run out, with the same cup every time.
    </p>
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <div class="care-fields">
      {fields.map(({ name, ...field }) => (
        <Field
          {...field}
          name={name}
          value={typed(name)}
          fault={faultAt(faults, name)}
          inputmode="decimal"
          autocomplete="off"
        />
      ))}
    </div>
    <label>
      <input
        type="checkbox"
        id={idOfField("stirred")}
        name="stirred"
        checked={typed("stirred") !== ""}
      />
      I stirred it from the bottom first
    </label>
    <TextArea
      label="Note"
      name="note"
      rows={2}
      maxlength={1000}
      value={typed("note")}
      fault={faultAt(faults, "note")}
    />
    <p class="actions">
      <button type="submit">Put the reading on record</button>
    </p>
  </form>
);

const fields = [
  { name: "specificGravity", label: "Specific gravity", hint: "As in 1.45.", required: true },
  { name: "litres", label: "In the bucket now", unit: "litres", required: true },
  { name: "flowSeconds", label: "Flow", unit: "s" },
  { name: "coatMm", label: "Dried coat on a test piece", unit: "mm" },
  { name: "celsius", label: "Temperature", unit: "°C" },
];
