import { idOfField } from "../parts/field.tsx";

type BoxesProps = {
  legend: string;
  hint: string;
  name: string;
  options: readonly { value: string; label: string }[];
  ticked: readonly string[];
  fault: string | undefined;
};

/** Several of many answers, each a box to tick. */
export const Boxes = ({ legend, hint, name, options, ticked, fault }: BoxesProps) => (
  <fieldset
    id={idOfField(name)}
    class={fault ? "field-faulty" : undefined}
    tabindex={fault ? -1 : undefined}
  >
    <legend>{legend}</legend>
    <p class="field-hint">{hint}</p>
    {fault ? <p class="field-fault">{fault}</p> : null}
    <ul class="plan-boxes">
      {options.map(({ value, label }) => (
        <li>
          <label>
            <input type="checkbox" name={name} value={value} checked={ticked.includes(value)} />
            {label}
          </label>
        </li>
      ))}
    </ul>
  </fieldset>
);
