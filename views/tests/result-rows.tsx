import { Choice, Field } from "../parts/field.tsx";

type ResultRowsProps = {
  typed: (path: string) => string;
  faultOf: (path: string) => string | undefined;
};

/** As many as the form has without a script; a longer report is sent as JSON, or as two tests. */
const rows = [0, 1, 2, 3, 4, 5, 6, 7] as const;

/** Rows for the figures of a leach report. */
export const ResultRows = ({ typed, faultOf }: ResultRowsProps) => (
  <div class="result-rows">
    {rows.map((row) => {
      const told = (name: string) => {
        const path = `results.${row}.${name}`;
        return { name: path, value: typed(path), fault: faultOf(path) };
      };
      return (
        <fieldset class="result-row">
          <legend>Figure {row + 1}</legend>
          <Field {...told("element")} label="Element" maxlength={2} />
          <Choice
            {...told("qualifier")}
            label="Is"
            options={[
              { value: "", label: "=" },
              { value: "<", label: "< (below)" },
            ]}
          />
          <Field {...told("value")} label="Value" inputmode="decimal" />
          <Field {...told("unit")} label="Unit" maxlength={20} />
          <Field {...told("detectionLimit")} label="Detection limit" inputmode="decimal" />
          <Field {...told("specimen")} label="Specimen" maxlength={80} />
        </fieldset>
      );
    })}
  </div>
);
