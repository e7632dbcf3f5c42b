import { Choice, type Fault, Field, faultAt, TextArea } from "../parts/field.tsx";
import type { ShownHandout } from "./types.ts";
import { powderWords } from "./words.ts";

/** What was typed of the reader's own powders. */
export type TypedOwn = { rows: number; text: (path: string) => string };

type OwnFormProps = {
  handout: ShownHandout;
  address: string;
  faults: readonly Fault[];
  own: TypedOwn;
};

/** A reader's bag in place of the studio's: its analysis, and the recipes worked out with it. */
export const OwnForm = ({ handout, address, faults, own }: OwnFormProps) => (
  <section class="screen-only" id="own">
    <h2>With the powders that you can buy</h2>
    <p>
      Copy the analysis from your supplier's sheet, and the recipes are worked out anew with your
      powder in place of the studio's. Nothing of it is kept.
    </p>
    <form class="sheet" method="post" action={address}>
      {Array.from({ length: Math.min(20, own.rows + 2) }, (_, row) => (
        <OwnRow row={row} handout={handout} faults={faults} own={own} />
      ))}
      <p class="actions">
        <button type="submit">Work it out with mine</button>
      </p>
    </form>
  </section>
);

type OwnRowProps = Omit<OwnFormProps, "address"> & { row: number };

const OwnRow = ({ row, handout, faults, own }: OwnRowProps) => {
  const told = (name: string) => {
    const path = `own.${row}.${name}`;
    return { name: path, value: own.text(path), fault: faultAt(faults, path) };
  };
  return (
    <fieldset>
      <legend>Powder {row + 1}</legend>
      <Choice
        {...told("material")}
        label="In place of"
        options={[
          { value: "", label: "none" },
          ...handout.powders.map((powder) => ({
            value: powder.slug,
            label: powderWords(powder),
          })),
        ]}
      />
      <Field
        {...told("name")}
        label="What your bag says"
        hint="The maker's name for it, so that you know it again."
        maxlength={80}
        autocomplete="off"
      />
      <TextArea
        {...told("oxides")}
        label="Its analysis"
        hint="An oxide a row, percent of the powder: SiO2 66.3. With its ± where the sheet gives one: SiO2 66.3 ± 0.5."
        rows={6}
        maxlength={2000}
        autocomplete="off"
      />
      <Field
        {...told("loss")}
        label="Loss on ignition"
        hint="Left empty it is what is missing from 100."
        unit="%"
        inputmode="decimal"
        autocomplete="off"
      />
      <Field
        {...told("formula")}
        label="Or its formula"
        hint="Such as CaCO3, where no analysis is to be had."
        maxlength={200}
        autocomplete="off"
      />
    </fieldset>
  );
};
