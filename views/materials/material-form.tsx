import { FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { hazardName, hazards } from "../parts/hazard-words.ts";
import { AnalysisFields } from "./analysis-fields.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";

type MaterialFormProps = {
  typed: Typed;
  ticked: readonly string[];
  faults: Faults;
  idempotencyKey: string;
};

const kinds = ["clay", "feldspar", "silica", "flux", "frit", "colourant", "opacifier", "stain"];

/** A new material to fill in. */
export const MaterialForm = ({ typed, ticked, faults, idempotencyKey }: MaterialFormProps) => (
  <section id="material-form">
    <h1>Add a material</h1>
    <p>
      One powder, one page. If it only has another name where you bought it, add that name to the
      material that is there. Without a formula or an analysis it is a ready-made product or a
      stain: it may be an addition, and the chemistry leaves it out.
    </p>
    <FaultSummary faults={faults} />
    <form method="post" action="/materials" hx-boost="true" data-draft="/materials">
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <Field
        label="Name"
        name="name"
        value={typed("name")}
        fault={faultAt(faults, "name")}
        hint="By its generic name: potash feldspar, whiting, copper carbonate."
        required
        maxlength={80}
        autocomplete="off"
      />
      <Field
        label="Where it is called that"
        name="region"
        value={typed("region")}
        fault={faultAt(faults, "region")}
        hint="A country or a region, or leave it empty."
        maxlength={60}
      />
      <Field
        label="Kind"
        name="kind"
        value={typed("kind")}
        fault={faultAt(faults, "kind")}
        hint="A clay, a feldspar, a frit, a colourant …"
        maxlength={40}
        list="kinds"
      />
      <datalist id="kinds">
        {kinds.map((kind) => (
          <option value={kind} />
        ))}
      </datalist>
      <TextArea
        label="About it"
        name="about"
        value={typed("about")}
        fault={faultAt(faults, "about")}
        hint="What it does, how it behaves in the bucket, which grade to buy."
        maxlength={4000}
      />
      <fieldset id="field-hazards" tabindex={-1}>
        <legend>Be careful with</legend>
        {faultAt(faults, "hazards") ? (
          <p class="field-faulty">
            <span class="field-fault">{faultAt(faults, "hazards")}</span>
          </p>
        ) : null}
        {hazards.map((hazard) => (
          <label>
            <input
              type="checkbox"
              name="hazards"
              value={hazard}
              checked={ticked.includes(hazard)}
            />
            {hazardName[hazard]}
          </label>
        ))}
      </fieldset>
      <Field
        label="Source of the formula or analysis"
        name="source"
        value={typed("source")}
        fault={faultAt(faults, "source")}
        hint="The supplier's sheet and its date, the laboratory, the book."
        maxlength={300}
      />
      <AnalysisFields prefix="analysis." typed={typed} faults={faults} />
      <p class="actions">
        <button type="submit">Put it on the shelf</button>
        <a href="/materials">Back to the shelf</a>
      </p>
    </form>
  </section>
);
