import type { WeightUnit } from "../../src/chem/batch-amounts.ts";
import { Choice, type Fault, Field, faultAt } from "../parts/field.tsx";
import type { ShownHandout, Temperature } from "./types.ts";

type OptionsProps = {
  handout: ShownHandout;
  faults: readonly Fault[];
  address: string;
  revision?: number | undefined;
  asked: Readonly<Record<string, string>>;
};

const weights: readonly { value: WeightUnit; label: string }[] = [
  { value: "kg", label: "kilograms" },
  { value: "g", label: "grams" },
  { value: "lb", label: "pounds" },
];

const temperatures: readonly { value: Temperature; label: string }[] = [
  { value: "C", label: "°C" },
  { value: "F", label: "°F" },
];

/** In whose names and measures the handout is read. */
export const OptionsForm = ({ handout, faults, address, revision, asked }: OptionsProps) => (
  <form class="narrowing screen-only handout-options" method="get" action={address}>
    {revision === undefined ? null : (
      <input type="hidden" name="revision" value={String(revision)} />
    )}
    {handout.regions.length === 0 ? null : (
      <Choice
        label="Powders by their names in"
        name="region"
        value={asked.region ?? handout.region}
        fault={faultAt(faults, "region")}
        options={[
          { value: "", label: "the studio that made it" },
          ...handout.regions.map((region) => ({ value: region, label: region })),
        ]}
      />
    )}
    <Choice
      label="Tub weighed in"
      name="weight"
      value={asked.weight ?? handout.weight}
      fault={faultAt(faults, "weight")}
      options={weights}
    />
    <Field
      label="Dry base in a tub"
      name="tub"
      value={asked.tub ?? handout.tub.toFixed()}
      fault={faultAt(faults, "tub")}
      inputmode="decimal"
      autocomplete="off"
    />
    <Choice
      label="Temperatures in"
      name="temperature"
      value={asked.temperature ?? handout.temperature}
      fault={faultAt(faults, "temperature")}
      options={temperatures}
    />
    <p class="actions">
      <button type="submit">Show it so</button>{" "}
      <button type="submit" class="quiet" name="format" value="csv">
        Lines for a spreadsheet
      </button>{" "}
      <button type="button" class="quiet" data-print hidden>
        Print it
      </button>
    </p>
  </form>
);
