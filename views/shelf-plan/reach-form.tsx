import { type Fault, FaultSummary } from "../parts/field.tsx";
import { Boxes } from "./boxes.tsx";
import { atFields, faultOf, withinHint } from "./form-words.ts";
import type { Choices } from "./types.ts";

export type HadForm = { have: readonly string[]; within: string };

type ReachFormProps = Pick<Choices, "materials" | "limits"> & {
  had: HadForm;
  faults: readonly Fault[];
};

/** The form that asks how far a shelf goes. Its fields have names of their own on this page. */
export const ReachForm = ({ materials, limits, had, faults }: ReachFormProps) => (
  <section id="reach-form">
    <h2>How far does my shelf go?</h2>
    <p>
      Tick what you have. You read which recipes of the library it makes as they are, which it makes
      restated, and which one more powder would open.
    </p>
    <FaultSummary faults={atFields(faults, "reach-")} />
    <form class="sheet" method="post" action="/shelf-reach#reach">
      <Boxes
        legend="Materials that I have"
        name="have"
        hint={`Up to ${limits.candidates}.`}
        options={materials.map(({ slug, name }) => ({ value: slug, label: name }))}
        ticked={had.have}
        fault={faultOf(faults, "have")}
      />
      <details open={faultOf(faults, "within") !== undefined}>
        <summary>Another tolerance than five in a hundred</summary>
        <div class="field">
          <label for="field-reach-within">Tolerance</label>
          <span class="field-hint" id="field-reach-within-hint">
            {withinHint}
          </span>
          {faultOf(faults, "within") ? (
            <span class="field-fault">{faultOf(faults, "within")}</span>
          ) : null}
          <input
            id="field-reach-within"
            name="within"
            value={had.within}
            inputmode="decimal"
            autocomplete="off"
            aria-describedby="field-reach-within-hint"
          />
        </div>
      </details>
      <div class="buttons">
        <button type="submit" class="main">
          See how far it goes
        </button>
      </div>
    </form>
  </section>
);
