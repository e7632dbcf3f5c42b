import { type Fault, FaultSummary, Field } from "../parts/field.tsx";
import { Boxes } from "./boxes.tsx";
import { atFields, faultOf, withinHint } from "./form-words.ts";
import type { Choices } from "./types.ts";

export type PlannedForm = {
  recipes: readonly string[];
  all: boolean;
  candidates: readonly string[];
  size: string;
  within: string;
  budget: string;
  currency: string;
};

type PlanFormProps = Choices & { planned: PlannedForm; faults: readonly Fault[] };

/** The form that asks for the few materials that reach the most recipes. */
export const PlanForm = ({
  recipes,
  recipeCount,
  materials,
  limits,
  member,
  planned,
  faults,
}: PlanFormProps) => (
  <section id="plan-form">
    <h2>Which few materials?</h2>
    <FaultSummary faults={atFields(faults)} />
    <form class="sheet" method="post" action="/shelf-plan#plan">
      <Boxes
        legend="Recipes"
        name="recipes"
        hint={`Up to ${limits.recipes}. Their bases count; additions such as colouring oxides are listed as still to be had.`}
        options={recipes.map(({ slug, name }) => ({ value: slug, label: name }))}
        ticked={planned.recipes}
        fault={faultOf(faults, "recipes")}
      />
      {recipeCount > recipes.length ? (
        <p>
          The first {recipes.length} of {recipeCount} recipes are here to choose from.
        </p>
      ) : null}
      <p>
        <label>
          <input type="checkbox" name="all" checked={planned.all} />
          All that I may see{recipeCount > limits.recipes ? `, the first ${limits.recipes}` : ""}
        </label>
      </p>
      <Boxes
        legend="Materials to choose from"
        name="candidates"
        hint={`Up to ${limits.candidates}. Those on the shelf that have an analysis and are still sold.`}
        options={materials.map(({ slug, name }) => ({ value: slug, label: name }))}
        ticked={planned.candidates}
        fault={faultOf(faults, "candidates")}
      />
      <Field
        label="Materials on the shelf"
        name="size"
        value={planned.size}
        inputmode="numeric"
        autocomplete="off"
        required
        hint="How many you are ready to buy and keep."
        fault={faultOf(faults, "size")}
      />
      <Field
        label="Tolerance"
        name="within"
        value={planned.within}
        inputmode="decimal"
        autocomplete="off"
        hint={withinHint}
        fault={faultOf(faults, "within")}
      />
      {member ? (
        <>
          <Field
            label="Budget"
            name="budget"
            value={planned.budget}
            inputmode="decimal"
            autocomplete="off"
            hint="What one pack of each may cost together, by the newest lots. Then the number above is the most there may be, and what has no known price is not bought. Leave empty for none."
            fault={faultOf(faults, "budget")}
          />
          <Field
            label="Currency"
            name="currency"
            value={planned.currency}
            maxlength={3}
            autocomplete="off"
            hint="Three letters. Left empty, the one that was last paid in."
            fault={faultOf(faults, "currency")}
          />
        </>
      ) : null}
      <div class="buttons">
        <button type="submit" class="main">
          Plan the shelf
        </button>
      </div>
      {member ? null : (
        <p>People of the studio can ask for more at a time, once they have signed in.</p>
      )}
    </form>
  </section>
);
