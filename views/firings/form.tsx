import { type Faults, faultAt, type Typed } from "../materials/typed.ts";
import { KilnCaution } from "../parts/cautions.tsx";
import { Choice, FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { coneChoices } from "../tiles/cone-words.ts";
import { SegmentRows, WitnessRows } from "./form-rows.tsx";

type FiringFormProps = {
  kilns: readonly { slug: string; name: string }[];
  kinds: readonly string[];
  typed: Typed;
  faults: Faults;
  idempotencyKey: string;
};

/** The form that puts a firing on record. */
export const FiringForm = ({ kilns, kinds, typed, faults, idempotencyKey }: FiringFormProps) => {
  const told = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <section id="firing-form">
      <h1>Put a firing on record</h1>
      <p>
        Once the kiln is open and the witness cones are read. What is on record stays as it is; put
        what you notice later into the remarks of its tiles.
      </p>
      <FaultSummary faults={faults} />
      <form method="post" action="/firings">
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Choice
          label="Kiln"
          {...told("kiln")}
          required
          options={[
            { value: "", label: "choose the kiln" },
            ...kilns.map(({ slug, name }) => ({ value: slug, label: name })),
          ]}
          hint={kilns.length === 0 ? "No kiln is on record yet." : undefined}
        />
        <p>
          <a class="kiln-way" href="/kilns">
            Put another kiln on record
          </a>
        </p>
        <Choice
          label="Kind"
          {...told("kind")}
          required
          options={[
            { value: "", label: "choose the kind" },
            ...kinds.map((kind) => ({
              value: kind,
              label: kind === "bisque" ? "bisque" : `glaze, ${kind}`,
            })),
          ]}
        />
        <Choice
          label="Fired for cone"
          {...told("cone")}
          required
          options={[{ value: "", label: "choose the cone" }, ...coneChoices()]}
          hint="What it was set for. 04 is not 4."
        />
        <Field
          label="Started"
          {...told("startedAt")}
          type="datetime-local"
          required
          hint="In UTC, not by the clock on your wall: all times here are UTC."
        />
        <WitnessRows typed={typed} faults={faults} />
        <SegmentRows typed={typed} faults={faults} />
        <TextArea
          label="Remark"
          {...told("remark")}
          maxlength={4000}
          hint="How full it was, what went wrong, how it was cooled."
        />
        <p class="actions">
          <button type="submit">Put this firing on record</button>
          <a href="/firings">Back to the firings</a>
        </p>
      </form>
      <KilnCaution />
    </section>
  );
};
