import { type Fault, FaultSummary, faultAt, TextArea } from "../parts/field.tsx";
import { hrefOf, type RecalledThing, whatWords } from "./words.ts";

type RecallFormProps = {
  of: RecalledThing;
  why: string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** Recalls one lot or bucket, with the reason that everybody then reads. */
export const RecallForm = ({ of, why, faults, idempotencyKey }: RecallFormProps) => (
  <section>
    <h1>Recall: {whatWords(of)}</h1>
    <FaultSummary faults={faults} />
    <p>
      From then on nobody may use it, and every bucket that it is in says so first. Whoever ticked
      that they used such a bucket finds it among what waits for them. Only a manager ends it, with
      what was done.
    </p>
    <form method="post" action="/recalls">
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <input type="hidden" name={of.kind} value={of.id} />
      <TextArea
        label="Why"
        name="why"
        value={why}
        fault={faultAt(faults, "why")}
        hint="What is wrong, who says so, and what people should do with what they glazed."
        rows={4}
        maxlength={2000}
        required
      />
      <p class="actions">
        <button type="submit">Recall it</button>
        <a href={hrefOf(of)}>Back without recalling</a>
      </p>
    </form>
  </section>
);
