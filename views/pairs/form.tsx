import { type Fault, FaultSummary, Field, faultAt, TextArea } from "../parts/field.tsx";

type PairFormProps = {
  typed: { over: string; under: string; about: string };
  faults: readonly Fault[];
  /** Where the very pair is, where it is on record already. */
  there: string | undefined;
  idempotencyKey: string;
};

const hint = "A recipe and its revision, such as slack-water@3; without a number, its head.";

/** The form that puts a layered pair on record. */
export const PairForm = ({ typed, faults, there, idempotencyKey }: PairFormProps) => (
  <section>
    <h1>Lay a glaze over another</h1>
    <p>
      Which of the two is on top matters: the other way round is another pair. Tiles are put on
      record with the recipe on top, saying what it lies over.
    </p>
    <FaultSummary faults={faults} />
    {there ? (
      <p>
        <a href={there}>To the pair that is on record</a>
      </p>
    ) : null}
    <form method="post" action="/pairs">
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <Field
        label="On top"
        name="over"
        value={typed.over}
        fault={faultAt(faults, "over")}
        hint={hint}
        maxlength={100}
        required
      />
      <Field
        label="Beneath"
        name="under"
        value={typed.under}
        fault={faultAt(faults, "under")}
        hint={hint}
        maxlength={100}
        required
      />
      <TextArea
        label="About it"
        name="about"
        value={typed.about}
        fault={faultAt(faults, "about")}
        hint="How it was laid: how much of each, in which order, how long between."
        maxlength={2000}
      />
      <p class="actions">
        <button type="submit">Put this pair on record</button>
        <a class="button quiet" href="/pairs">
          Back to the pairs
        </a>
      </p>
    </form>
  </section>
);
