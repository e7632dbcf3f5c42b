import { Choice, type Fault, FaultSummary, Field, faultAt, idOfField } from "../parts/field.tsx";

export type DirectionsFormProps = {
  bucket: { id: string; name: string };
  bodies: readonly { slug: string; name: string }[];
  typed: (path: string) => string;
  faults: readonly Fault[];
};

/** How a bucket should be and how to use it. What is left empty is not said. */
export const DirectionsForm = ({ bucket, bodies, typed, faults }: DirectionsFormProps) => {
  const told = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  const number = (name: string) => ({
    ...told(name),
    inputmode: "decimal" as const,
    autocomplete: "off",
  });
  return (
    <form method="post" action={`/buckets/${bucket.id}/directions`} class="care-form">
      <FaultSummary faults={faults} />
      <p>What you leave empty is not said. All of it counts from now on, in place of the last.</p>
      {bands.map(({ name, legend, unit, hint }) => (
        <fieldset>
          <legend>{legend}</legend>
          <div class="care-fields">
            <Field label="From" {...number(`${name}.low`)} unit={unit} hint={hint} />
            <Field label="To" {...number(`${name}.high`)} unit={unit} />
          </div>
        </fieldset>
      ))}
      <fieldset>
        <legend>Using it</legend>
        <div class="care-fields">
          <Choice
            label="Body"
            {...told("body")}
            options={[
              { value: "", label: "not said" },
              ...bodies.map(({ slug, name }) => ({ value: slug, label: name })),
            ]}
          />
          <Field label="Bisque cone" {...told("bisqueCone")} hint="Such as 04, which is not 4." />
          <Field label="Dip for" {...number("dipSeconds")} unit="s" />
          <Field label="Coats" {...number("coats")} />
          <Field label="Keep clear of the foot" {...number("footMm")} unit="mm" />
          <Field label="It keeps for" {...number("keepsMonths")} unit="months" />
        </div>
        <label>
          <input
            type="checkbox"
            id={idOfField("catchDish")}
            name="catchDish"
            checked={["on", "true", "1"].includes(typed("catchDish"))}
          />
          A catch dish goes under every piece
        </label>
        <Field label="Sieve" {...told("sieve")} hint="Such as 80 mesh, twice." maxlength={80} />
        <Field
          label="Stirring"
          {...told("stirring")}
          hint="Such as: from the bottom, every ten minutes."
          maxlength={200}
        />
        <Field label="Whom to ask" {...told("ask")} maxlength={120} autocomplete="off" />
      </fieldset>
      <p class="actions">
        <button type="submit">Say it so</button>
      </p>
    </form>
  );
};

const bands = [
  { name: "gravity", legend: "Specific gravity", unit: undefined, hint: "As in 1.43." },
  { name: "flow", legend: "Flow through the cup", unit: "s", hint: undefined },
  { name: "coat", legend: "Dried coat", unit: "mm", hint: undefined },
];
