import type { Decimal } from "decimal.js";
import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";
import { Boxes } from "../shelf-plan/boxes.tsx";

export type ShoppingFormProps = {
  plans: readonly {
    id: string;
    recipe: { name: string };
    revision: number;
    baseGrams: Decimal;
    note: string;
  }[];
  trials: readonly { id: string; code: string; name: string }[];
  regions: readonly string[];
  typed: (name: string) => string;
  /** Whether a box of that name and value is ticked. */
  ticked: (name: string, value: string) => boolean;
  faults: readonly Fault[];
};

/** What to buy for, and within what. */
export const ShoppingForm = (props: ShoppingFormProps) => {
  const { plans, trials, regions, typed, ticked, faults } = props;
  const field = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  const planBoxes = plans.map(({ id, recipe, revision, baseGrams, note }) => ({
    value: id,
    label: `${recipe.name}, revision ${revision}: ${baseGrams.toFixed()} g${note ? ` (${note})` : ""}`,
  }));
  const trialBoxes = trials.map(({ id, code, name }) => ({ value: id, label: `${code}: ${name}` }));
  const tickedOf = (name: string, boxes: readonly { value: string }[]) =>
    boxes.flatMap(({ value }) => (ticked(name, value) ? [value] : []));
  return (
    <form class="sheet screen-only" method="get" action="/shopping">
      <FaultSummary faults={faults} />
      {plans.length > 0 ? (
        <Boxes
          legend="Planned batches"
          hint="With none ticked, all of them count. Those planned first go first."
          name="plans"
          options={planBoxes}
          ticked={tickedOf("plans", planBoxes)}
          fault={faultAt(faults, "plans")}
        />
      ) : null}
      {trials.length > 0 ? (
        <>
          <Boxes
            legend="Trials to weigh"
            hint="After the planned batches."
            name="trials"
            options={trialBoxes}
            ticked={tickedOf("trials", trialBoxes)}
            fault={faultAt(faults, "trials")}
          />
          <Field
            label="Base of each point of a trial"
            {...field("trialGrams")}
            hint="100 g where nothing is said."
            inputmode="decimal"
            unit="g"
          />
        </>
      ) : null}
      <label>
        <input type="checkbox" name="low" checked={ticked("low", "on")} /> Fill up everything that
        would then be low, too
      </label>
      <Field
        label="Budget"
        {...field("budget")}
        hint="With what sending costs. Leave it empty to see what everything costs."
        inputmode="decimal"
        autocomplete="off"
      />
      <Field
        label="Currency"
        {...field("currency")}
        hint="Its three letters. Only prices in it count; the studio's own where nothing is said."
        maxlength={3}
        autocomplete="off"
      />
      <Field
        label="Region whose names of powders to use"
        {...field("region")}
        hint={
          regions.length > 0
            ? `Such as ${regions.join(", ")}. Each supplier's own region where nothing is said.`
            : "Each supplier's own region where nothing is said."
        }
        maxlength={60}
        autocomplete="off"
      />
      <p class="actions">
        <button type="submit">Work out what to buy</button>
      </p>
    </form>
  );
};
