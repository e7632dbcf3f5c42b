import { type Faults, faultAt, type Typed } from "../materials/typed.ts";
import { Choice, Field, TextArea } from "../parts/field.tsx";
import { coneChoices } from "../tiles/cone-words.ts";

type SheetFieldsProps = { typed: Typed; faults: Faults };

/** What is known of a body, to be filled in. Names are the paths of the request. */
export const SheetFields = ({ typed, faults }: SheetFieldsProps) => {
  const told = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <>
      <fieldset>
        <legend>Cones that it is fired to</legend>
        <div class="field-pair">
          <Choice label="From cone" {...told("cones.low")} required options={coneOptions()} />
          <Choice label="To cone" {...told("cones.high")} required options={coneOptions()} />
        </div>
      </fieldset>
      <fieldset>
        <legend>Absorption</legend>
        <Field
          label="Water taken up"
          {...told("absorption.percent")}
          inputmode="decimal"
          unit="%"
          hint="By weight, at the hotter of its cones."
        />
        <Field
          label="Where that comes from"
          {...told("absorption.source")}
          maxlength={300}
          hint="Such as: supplier's sheet, or: boiled for five hours here, mean of three."
        />
      </fieldset>
      <fieldset>
        <legend>Linear expansion</legend>
        <Field
          label="Expansion"
          {...told("expansion.value")}
          inputmode="decimal"
          unit="× 10⁻⁶ per K"
          hint="Without the range beside it, such a figure says nothing."
        />
        <div class="field-pair">
          <Field
            label="Measured from"
            {...told("expansion.fromCelsius")}
            inputmode="numeric"
            unit="°C"
          />
          <Field label="to" {...told("expansion.toCelsius")} inputmode="numeric" unit="°C" />
        </div>
        <Field label="Where that comes from" {...told("expansion.source")} maxlength={300} />
      </fieldset>
      <Field label="Colour when fired" {...told("colour")} maxlength={60} hint="Such as: buff." />
      <TextArea label="About it" {...told("about")} maxlength={4000} />
    </>
  );
};

const coneOptions = () => [{ value: "", label: "choose the cone" }, ...coneChoices()];
