import { Choice, Field } from "../parts/field.tsx";
import { isSaid, optionsOf } from "./form-fields.tsx";

type CoatFieldsProps = {
  told: (name: string) => { name: string; value: string; fault: string | undefined };
  /** The buckets that hold the same melt. */
  buckets: readonly { id: string; name: string }[];
};

const names = [
  "application",
  "seconds",
  "coats",
  "specificGravity",
  "thicknessMm",
  "beside",
  "bucket",
  "over",
];

/** How the glaze was put on and what else may have mattered: folded away until somebody has it to say. */
export const CoatFields = ({ told, buckets }: CoatFieldsProps) => (
  <details open={isSaid(names.map(told))}>
    <summary>How it was put on, what stood beside it, which bucket it proves</summary>
    <Choice
      {...told("application")}
      label="Put on"
      options={optionsOf(["dipped", "poured", "brushed", "sprayed"])}
    />
    <Field
      {...told("seconds")}
      label="Time in the glaze"
      inputmode="decimal"
      unit="s"
      hint="Of dipping or pouring, such as 3."
    />
    <Field {...told("coats")} label="Coats" inputmode="numeric" />
    <Field
      {...told("specificGravity")}
      label="Specific gravity of the slurry"
      inputmode="decimal"
      hint="Weight of a litre in kilograms, such as 1.45."
    />
    <Field
      {...told("thicknessMm")}
      label="Thickness of the glaze"
      inputmode="decimal"
      unit="mm"
      hint="Of the fired coat, such as 0.8."
    />
    <Field
      {...told("beside")}
      label="What stood beside it"
      maxlength={300}
      hint="Chromium and copper travel in the kiln: a white with tin beside a chrome green comes out pink."
    />
    <Choice
      {...told("bucket")}
      label="Proof tile of a bucket"
      options={[
        { value: "", label: buckets.length === 0 ? "no bucket holds this melt" : "of none" },
        ...buckets.map(({ id, name }) => ({ value: id, label: name })),
      ]}
      hint="A bucket of the same melt: its page then shows whether it still comes out as it did."
    />
    <Field
      {...told("over")}
      label="Over another glaze"
      maxlength={100}
      hint="Only for a layered tile: the recipe and revision beneath, such as slack-water@3. Such a tile speaks for the pair and counts for neither alone."
    />
  </details>
);
