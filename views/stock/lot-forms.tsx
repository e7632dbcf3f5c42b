import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";

type FormProps = {
  typed: { grams: string; why: string };
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** What somebody weighed: what is left is that from then on. */
export const CountForm = ({ lotId, ...form }: FormProps & { lotId: string }) => (
  <form method="post" action={`/lots/${lotId}/counts`} class="screen-only">
    <h2>Count it</h2>
    <p>
      Weigh what is in the bag. What is left is that from now on, and the difference stays on
      record. A wrong count is put right by another.
    </p>
    <Fields
      {...form}
      label="Found in the bag"
      why="Why it differs, if you know"
      whyNeeded={false}
    />
    <p class="actions">
      <button type="submit">That is what is left</button>
    </p>
  </form>
);

type UseFormProps = FormProps & {
  lot: { id: string; mark: string; material: { name: string } };
  left: string;
};

/** What is taken out beside the mixes. */
export const UseForm = ({ lot, left, ...form }: UseFormProps) => (
  <section>
    <h1>Take some {lot.material.name} out</h1>
    <FaultSummary faults={form.faults} />
    <p>
      {lot.mark === "" ? "This lot" : `Lot ${lot.mark}`} holds {left} by record. What goes into a
      bucket is ticked on its mix instead.
    </p>
    <form method="post" action={`/lots/${lot.id}/uses`}>
      <Fields {...form} label="Taken out" why="What for, such as a trial or a class" whyNeeded />
      <p class="actions">
        <button type="submit">It is taken out</button>
        <a href={`/lots/${lot.id}`}>Back to the lot</a>
      </p>
    </form>
  </section>
);

type FieldsProps = FormProps & { label: string; why: string; whyNeeded: boolean };

const Fields = ({ label, why, whyNeeded, typed, faults, idempotencyKey }: FieldsProps) => (
  <>
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <Field
      label={label}
      name="grams"
      value={typed.grams}
      fault={faultAt(faults, "grams")}
      inputmode="decimal"
      autocomplete="off"
      unit="g"
      required
    />
    <Field
      label={why}
      name="why"
      value={typed.why}
      fault={faultAt(faults, "why")}
      maxlength={1000}
      autocomplete="off"
      required={whyNeeded}
    />
  </>
);
