import { type Fault, Field, faultAt } from "../parts/field.tsx";
import type { AskedOf } from "./find-form.tsx";

type Props = { oxides: readonly string[]; asked: AskedOf; faults: readonly Fault[] };

/** From how many to how many moles of each oxide, for every mole of flux. */
export const OxideRanges = ({ oxides, asked, faults }: Props) => (
  <details class="find-oxides" open={oxides.some((oxide) => isAsked(oxide, asked, faults))}>
    <summary>Chemistry: moles of an oxide for every mole of flux</summary>
    <div class="find-ranges">
      {oxides.map((oxide) => (
        <fieldset>
          <legend>{oxide}</legend>
          {(["least", "most"] as const).map((end) => (
            <Field
              label={end === "least" ? "At least" : "At most"}
              name={`${end}.${oxide}`}
              value={asked[`${end}.${oxide}`]?.[0]}
              inputmode="decimal"
              maxlength={12}
              fault={faultAt(faults, `${end}.${oxide}`)}
            />
          ))}
        </fieldset>
      ))}
    </div>
  </details>
);

const isAsked = (oxide: string, asked: AskedOf, faults: readonly Fault[]): boolean =>
  [`least.${oxide}`, `most.${oxide}`].some(
    (name) => asked[name] !== undefined || faultAt(faults, name) !== undefined,
  );
