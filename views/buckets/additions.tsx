import { Choice, type Fault, Field, faultAt } from "../parts/field.tsx";
import { When } from "../people/when.tsx";
import type { ShownAddition } from "./care-types.ts";

type AdditionsProps = {
  bucketId: string;
  additions: readonly ShownAddition[];
  /** Whether water that comes off would take part of the recipe along. */
  dissolves: boolean;
  isEmpty: boolean;
  typed: (path: string) => string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** What went into a bucket beside its mixes: its own history, never the recipe's. */
export const Additions = (props: AdditionsProps) => {
  const { bucketId, additions, dissolves, isEmpty, typed, faults, idempotencyKey } = props;
  const field = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <section id="additions">
      <h2>What went in beside the mixes</h2>
      {additions.length === 0 ? <p>Nothing is on record.</p> : null}
      <ul>
        {additions.map((addition) => (
          <li>
            {additionWords(addition)}: {addition.by}, <When at={addition.at} clock />
          </li>
        ))}
      </ul>
      {dissolves ? (
        <p class="caution">
          Part of this recipe is dissolved in its water: never pour water off this bucket.
        </p>
      ) : null}
      {isEmpty ? null : (
        <form method="post" action={`/buckets/${bucketId}/additions`} class="care-form">
          <h3>Write down what you put in</h3>
          <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
          <div class="care-fields">
            <Choice
              label="What"
              {...field("what")}
              required
              options={[
                { value: "water", label: "water" },
                ...(dissolves ? [] : [{ value: "water off", label: "water taken off" }]),
                { value: "flocculant", label: "flocculant" },
                { value: "deflocculant", label: "deflocculant" },
              ]}
            />
            <Field
              label="Which"
              {...field("named")}
              hint="Such as Epsom salts."
              maxlength={80}
              autocomplete="off"
            />
            <Field
              label="How much"
              {...field("amount")}
              inputmode="decimal"
              autocomplete="off"
              required
            />
            <Choice
              label="Of"
              {...field("unit")}
              required
              options={["g", "ml", "drops"].map((unit) => ({ value: unit, label: unit }))}
            />
          </div>
          <p class="actions">
            <button type="submit">Put it on record</button>
          </p>
        </form>
      )}
    </section>
  );
};

const additionWords = ({ what, named, amount, unit }: ShownAddition): string => {
  const how = `${amount.toFixed()} ${unit}`;
  if (what === "water off") return `${how} of water taken off`;
  return `${how} of ${named === "" ? what : `${named}, ${what}`}`;
};
