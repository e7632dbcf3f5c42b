import { Choice, Field, faultAt, TextArea } from "../parts/field.tsx";
import { coneChoices } from "../tiles/cone-words.ts";
import { unitWords } from "./cost.tsx";
import type { Sent } from "./types.ts";

type FormProps = { at: string; sent: Sent | undefined; idempotencyKey: string };

/** What a form shows of what was sent with it; nothing of what was sent with another. */
export function sentWith(form: Sent["form"], sent: Sent | undefined) {
  const own = sent?.form === form ? sent : undefined;
  const told = (name: string) => ({
    name,
    value: own?.typed(name) ?? "",
    fault: faultAt(own?.faults ?? [], name),
  });
  return { told, open: own !== undefined };
}

/** Puts down a witness cone that was read later. */
export const WitnessForm = ({ at, sent, idempotencyKey }: FormProps) => {
  const { told, open } = sentWith("witness", sent);
  return (
    <details open={open}>
      <summary>Add a witness cone</summary>
      <form method="post" action={`${at}/witness`}>
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Choice
          label="Cone"
          {...told("cone")}
          required
          options={[{ value: "", label: "choose the cone" }, ...coneChoices()]}
        />
        <Field
          label="Bent by"
          {...told("bendDegrees")}
          required
          inputmode="numeric"
          unit="°"
          hint="From upright: 0° where it did not move, 90° where its tip is level with its base."
        />
        <Field label="Where it stood" {...told("place")} maxlength={80} />
        <p class="actions">
          <button type="submit">Add the witness cone</button>
        </p>
      </form>
    </details>
  );
};

type CostFormProps = FormProps & { energies: readonly string[]; units: readonly string[] };

/** Puts down what a firing used and cost. */
export const CostForm = ({ at, sent, idempotencyKey, energies, units }: CostFormProps) => {
  const { told, open } = sentWith("cost", sent);
  const choices = (words: readonly string[], first: string) => [
    { value: "", label: first },
    ...words.map((value) => ({ value, label: unitWords(value) })),
  ];
  return (
    <details open={open}>
      <summary>Put down what it used</summary>
      <form method="post" action={`${at}/costs`}>
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Choice
          label="Energy"
          {...told("energy")}
          required
          options={choices(energies, "choose the energy")}
        />
        <Field label="How much" {...told("amount")} required inputmode="decimal" />
        <Choice label="In" {...told("unit")} required options={choices(units, "choose the unit")} />
        <Field
          label="Price of the firing"
          {...told("price")}
          inputmode="decimal"
          hint="What the whole firing cost. Leave it empty where nobody knows."
        />
        <Field
          label="Currency"
          {...told("currency")}
          maxlength={3}
          hint="Its three letters, such as GBP."
        />
        <p class="actions">
          <button type="submit">Put down the cost</button>
        </p>
      </form>
    </details>
  );
};

/** Takes a firing back that was put down wrong. */
export const FiringWithdrawalForm = ({ at, sent }: Omit<FormProps, "idempotencyKey">) => {
  const { told, open } = sentWith("withdrawal", sent);
  return (
    <details open={open}>
      <summary>Withdraw this firing</summary>
      <form method="post" action={`${at}/withdrawal`}>
        <TextArea
          label="Why it does not count"
          {...told("why")}
          required
          maxlength={1000}
          hint="Such as: these were the cones of another firing. It stays on record with your reason, and its cones witness nothing, so that what rests on them may no longer be approved. This cannot be undone."
        />
        <p class="actions">
          <button type="submit">Withdraw the firing</button>
        </p>
      </form>
    </details>
  );
};
