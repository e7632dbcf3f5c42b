import { Choice, Field, faultAt } from "../parts/field.tsx";
import type { RestatePageProps } from "./types.ts";

type ConditionsProps = Pick<RestatePageProps, "models" | "typed" | "faults" | "member">;

/** What is asked of the base as a whole: what it loses, how its glass expands, what it costs. */
export const Conditions = ({ models, typed, faults, member }: ConditionsProps) => {
  const asked = (name: string) => ({
    name,
    value: typed.text(name),
    fault: faultAt(faults, name),
  });
  return (
    <>
      <Field
        label="Loss on ignition of the base, at most"
        {...asked("loss.most")}
        hint="Leave empty where it does not matter."
        inputmode="decimal"
        unit="%"
        autocomplete="off"
      />
      <Choice
        label="Expansion of the fired base, by"
        {...asked("expansion.model")}
        options={[
          { value: "", label: "not asked for" },
          ...models.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        hint="By Appen's model it cannot be asked for: its factors move with the glass. No number of a model says by itself whether a glaze fits a body."
      />
      <Field
        label="Expansion, at least"
        {...asked("expansion.least")}
        inputmode="decimal"
        unit="10⁻⁶/K"
        autocomplete="off"
      />
      <Field
        label="Expansion, at most"
        {...asked("expansion.most")}
        inputmode="decimal"
        unit="10⁻⁶/K"
        autocomplete="off"
      />
      {member ? (
        <>
          <Field
            label="Cost of a kilogram of the base, at most"
            {...asked("cost.most")}
            fault={faultAt(faults, "cost.most") ?? faultAt(faults, "cost")}
            hint="By the newest lots. A powder without a known price is left out where this is asked."
            inputmode="decimal"
            autocomplete="off"
          />
          <Field
            label="Currency"
            {...asked("cost.currency")}
            hint="Three letters. Left empty, the one that was last paid in."
            maxlength={3}
            autocomplete="off"
          />
        </>
      ) : null}
      <Choice
        label="Of mixes that are as near as each other, the one with the least"
        {...asked("prefer")}
        options={[
          { value: "weight", label: "weight of the batch" },
          { value: "loss", label: "loss on ignition" },
          ...(member ? [{ value: "cost", label: "cost of a kilogram" }] : []),
          { value: "expansion", label: "expansion, by the model above" },
        ]}
      />
    </>
  );
};
