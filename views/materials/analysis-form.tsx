import { Choice, FaultSummary, Field } from "../parts/field.tsx";
import { AnalysisFields } from "./analysis-fields.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";

type AnalysisFormProps = {
  material: { slug: string; name: string };
  mayManage: boolean;
  typed: Typed;
  faults: Faults;
  idempotencyKey: string;
};

/** A further analysis of a material to fill in. */
export const AnalysisForm = ({ material, typed, faults, ...props }: AnalysisFormProps) => {
  const action = `/materials/${material.slug}/analyses`;
  return (
    <section id="analysis-form">
      <h1>Add an analysis of {material.name}</h1>
      <p>
        {props.mayManage
          ? "It can come into use at once or wait. Published recipes keep theirs either way."
          : "It waits until a manager puts it in use. Published recipes keep theirs either way."}{" "}
        What is added stays on record; a better one is added beside it.
      </p>
      <FaultSummary faults={faults} />
      <form method="post" action={action} hx-boost="true" data-draft={action}>
        <input type="hidden" name="idempotencyKey" value={props.idempotencyKey} />
        <Field
          label="Source"
          name="source"
          value={typed("source")}
          fault={faultAt(faults, "source")}
          hint="Who says so: the supplier's sheet and its date, the laboratory, the book."
          required
          maxlength={300}
        />
        <Field
          label="Measured on"
          name="measuredOn"
          type="date"
          value={typed("measuredOn")}
          fault={faultAt(faults, "measuredOn")}
        />
        <AnalysisFields prefix="" typed={typed} faults={faults} />
        {props.mayManage ? (
          <Choice
            label="Put it in use"
            name="inUse"
            value={typed("inUse")}
            fault={faultAt(faults, "inUse")}
            options={[
              { value: "true", label: "at once: new revisions pin it" },
              { value: "false", label: "later: it waits" },
            ]}
          />
        ) : null}
        <p class="actions">
          <button type="submit">Add the analysis</button>
          <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
        </p>
      </form>
    </section>
  );
};
