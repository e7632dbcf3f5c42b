import { type Fault, FaultSummary, faultAt, TextArea } from "../parts/field.tsx";
import { When } from "../people/when.tsx";
import { Reach } from "./reach.tsx";
import type { ShownReach, ShownRecall } from "./types.ts";
import { hrefOf, untouchedWords, whatWords } from "./words.ts";

type RecallPageProps = {
  recall: ShownRecall;
  reached: ShownReach;
  mayClose: boolean;
  at: Date;
  done: string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** A recall with what it reaches, down to the people: a list to print and to work through. */
export const RecallPage = (props: RecallPageProps) => {
  const { recall, reached, mayClose, at } = props;
  const { of, why, by, closing } = recall;
  return (
    <article class="recall">
      <h1>Recall: {whatWords(of)}</h1>
      <FaultSummary faults={props.faults} />
      <p class="answer">
        {closing ? "This recall is closed." : "Do not use it, nor what was glazed with it."}
      </p>
      <p class="note-text">{why}</p>
      <p class="note-by">
        Recalled by {by}, <When at={recall.at} clock />. <a href={hrefOf(of)}>See the {of.kind}</a>
      </p>
      {closing ? (
        <section>
          <h2>What was done</h2>
          <p class="note-text">{closing.done}</p>
          <p class="note-by">
            {closing.by}, <When at={closing.at} clock />
          </p>
        </section>
      ) : null}
      <Reach reached={reached} />
      <h2>Approvals</h2>
      <p>{untouchedWords(of)}</p>
      <p class="print-only">
        As of <When at={at} clock />.
      </p>
      {mayClose && !closing ? <ClosingForm {...props} /> : null}
    </article>
  );
};

const ClosingForm = ({ recall, done, faults, idempotencyKey }: RecallPageProps) => (
  <form method="post" action={`/recalls/${recall.id}/closing`} class="screen-only">
    <h2>Close it</h2>
    <p>
      When everybody above was told and what is recalled is out of use. It can be used again from
      then on, as far as nothing else speaks against it. Waste glaze and powders are collected and
      handed in by local rules, never poured down the drain.
    </p>
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <TextArea
      label="What was done"
      name="done"
      value={done}
      fault={faultAt(faults, "done")}
      hint="Who was told, what was thrown out, what a laboratory or the supplier said."
      rows={4}
      maxlength={2000}
      required
    />
    <p class="actions">
      <button type="submit">Close the recall</button>
    </p>
  </form>
);
