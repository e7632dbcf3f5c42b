import { type Faults, faultAt, type Typed } from "../materials/typed.ts";
import { degreeSign } from "../parts/degrees.ts";
import { Choice, Field } from "../parts/field.tsx";
import { coneChoices } from "../tiles/cone-words.ts";

const rows = [0, 1, 2, 3, 4, 5];

type RowsProps = { typed: Typed; faults: Faults };

/** The witness cones in the order in which they stood; rows left blank are no cones. */
export const WitnessRows = ({ typed, faults }: RowsProps) => {
  const told = tellFrom(typed, faults);
  return (
    <fieldset>
      <legend>Witness cones</legend>
      <p>
        How far each bent from upright: 0° where it did not move, 90° where its tip is level with
        its base. Leave rows blank that you do not need.
      </p>
      <ol class="kiln-rows">
        {rows.map((row) => (
          <li class="kiln-row">
            <fieldset class="kiln-cells">
              <legend class="hidden-words">Witness cone {row + 1}</legend>
              <Choice label="Cone" {...told(`witness.${row}.cone`)} options={coneOptions()} />
              <Field
                label="Bent by"
                {...told(`witness.${row}.bendDegrees`)}
                inputmode="numeric"
                unit="°"
              />
              <Field label="Where it stood" {...told(`witness.${row}.place`)} maxlength={80} />
            </fieldset>
          </li>
        ))}
      </ol>
    </fieldset>
  );
};

/** The programme as the kiln was set; rows left blank are no steps. */
export const SegmentRows = ({ typed, faults }: RowsProps) => {
  const told = tellFrom(typed, faults);
  return (
    <fieldset>
      <legend>Programme</legend>
      <p>
        Each step as the kiln was set: how fast, to which temperature, and how long it was held
        there. Leave it all blank where nobody knows. <InCelsius />
      </p>
      <ol class="kiln-rows">
        {rows.map((row) => (
          <li class="kiln-row">
            <fieldset class="kiln-cells">
              <legend class="hidden-words">Step {row + 1}</legend>
              <Field
                label="How fast"
                {...told(`programme.${row}.celsiusPerHour`)}
                inputmode="numeric"
                unit="°C/h"
              />
              <Field
                label="To"
                {...told(`programme.${row}.toCelsius`)}
                inputmode="numeric"
                unit="°C"
              />
              <Field
                label="Held for"
                {...told(`programme.${row}.holdMinutes`)}
                inputmode="numeric"
                unit="minutes"
              />
            </fieldset>
          </li>
        ))}
      </ol>
    </fieldset>
  );
};

/** A programme is put down in the whole degrees Celsius that it is kept in. */
const InCelsius = () =>
  degreeSign() === "°C" ? null : (
    <strong>In °C here: 2232 °F is 1222 °C, and 108 °F an hour is 60 °C an hour.</strong>
  );

const tellFrom = (typed: Typed, faults: Faults) => (name: string) => ({
  name,
  value: typed(name),
  fault: faultAt(faults, name),
});

const coneOptions = () => [{ value: "", label: "none" }, ...coneChoices()];
