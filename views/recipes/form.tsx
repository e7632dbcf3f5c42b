import { Choice, type Fault, FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { coneChoices } from "../tiles/cone-words.ts";
import { LivePreview } from "./live-preview.tsx";
import { Pasting } from "./pasting.tsx";
import type { PreviewProps } from "./preview.tsx";
import { Worksheet, type WorksheetLine } from "./worksheet.tsx";

export type RecipeFields = {
  name: string;
  shownTo: string;
  use: string;
  coneLow: string;
  coneHigh: string;
  atmosphere: string;
  surface: string;
  about: string;
  message: string;
  pasted: string;
};

export type RecipeFormProps = {
  action: string;
  /** A new recipe has a name and who may see it; a new revision says what it is based on. */
  revises: { basedOn: number } | undefined;
  fields: RecipeFields;
  lines: readonly WorksheetLine[];
  faults: readonly Fault[];
  materialNames: readonly string[];
  preview: PreviewProps;
  idempotencyKey: string;
};

/** A recipe to fill in, with what it comes to beside it. Works the same with and without script. */
export const RecipeForm = (props: RecipeFormProps) => {
  const { action, revises, fields, faults, preview } = props;
  const prefix = revises ? "" : "revision.";
  const fault = (path: string) => faults.find((known) => known.path === path)?.says;
  return (
    <form
      id="recipe-form"
      class="sheet"
      method="post"
      action={action}
      hx-post={action}
      hx-target="#sheet"
      hx-select="#sheet"
      hx-swap="outerHTML"
      data-draft={action}
    >
      <FaultSummary faults={faults} />
      {/* Enter in a field presses the first button of a form, so that is the harmless one. */}
      <button type="submit" class="hidden-words" name="change" value="work-out" tabindex={-1}>
        Work out
      </button>
      <input type="hidden" name="idempotencyKey" value={props.idempotencyKey} />
      {revises ? <input type="hidden" name="basedOn" value={String(revises.basedOn)} /> : null}
      <div class="sheet-columns">
        <div class="sheet-fields">
          {revises ? null : (
            <Field
              label="Name of the glaze"
              name="name"
              value={fields.name}
              fault={fault("name")}
              maxlength={80}
              autocomplete="off"
            />
          )}
          <Worksheet
            lines={props.lines}
            prefix={prefix}
            faults={faults}
            materialNames={props.materialNames}
          />
          <Pasting pasted={fields.pasted} fault={fault("pasted")} />
          <Firing prefix={prefix} fields={fields} fault={fault} />
          <TextArea
            label="About it"
            name={`${prefix}about`}
            value={fields.about}
            fault={fault(`${prefix}about`)}
            hint="How to put it on, what it does, what to look out for."
            maxlength={8000}
          />
          {revises ? null : <ShownTo value={fields.shownTo} />}
          <Field
            label="What this revision is, in a line"
            name={`${prefix}message`}
            value={fields.message}
            fault={fault(`${prefix}message`)}
            hint={revises ? "What changed, and why." : "“As mixed since spring”, “first try”."}
            maxlength={500}
            autocomplete="off"
          />
          <p class="buttons">
            <button class="main" type="submit">
              {revises ? `Publish on top of revision ${revises.basedOn}` : "Publish"}
            </button>
          </p>
        </div>
        <LivePreview {...preview} />
      </div>
    </form>
  );
};

type FiringProps = {
  prefix: string;
  fields: RecipeFields;
  fault: (path: string) => string | undefined;
};

const Firing = ({ prefix, fields, fault }: FiringProps) => (
  <fieldset class="sheet-group">
    <legend>Use and firing</legend>
    <Choice
      label="What it is for"
      name={`${prefix}use`}
      value={fields.use}
      fault={fault(`${prefix}use`)}
      options={uses}
      hint="Decorative only until tiles and tests say otherwise. Crazed and crackle glazes stay decorative."
    />
    <div class="field-pair">
      <Choice
        label="From cone"
        name={`${prefix}cones.low`}
        value={fields.coneLow}
        fault={fault(`${prefix}cones.low`)}
        options={coneChoices()}
      />
      <Choice
        label="to cone"
        name={`${prefix}cones.high`}
        value={fields.coneHigh}
        fault={fault(`${prefix}cones.high`)}
        options={coneChoices()}
      />
    </div>
    <Choice
      label="Atmosphere"
      name={`${prefix}atmosphere`}
      value={fields.atmosphere}
      fault={fault(`${prefix}atmosphere`)}
      options={atmospheres}
    />
    <Field
      label="Surface"
      name={`${prefix}surface`}
      value={fields.surface}
      fault={fault(`${prefix}surface`)}
      hint="Gloss, satin, matt, dry, crystalline …"
      maxlength={60}
      list="surfaces"
    />
    <datalist id="surfaces">
      {["gloss", "satin", "matt", "dry", "crystalline", "textured"].map((word) => (
        <option value={word} />
      ))}
    </datalist>
  </fieldset>
);

const uses = [
  { value: "decorative", label: "Decorative only: nothing that food, drink or lips touch" },
  {
    value: "functional",
    label: "Functional: meant to touch food, drink and lips, to be proven by tiles and tests",
  },
];

const atmospheres = ["oxidation", "neutral", "reduction", "salt", "soda", "wood", "raku"].map(
  (word) => ({
    value: word,
    label: word,
  }),
);

export const shownToOptions = [
  { value: "public", label: "Everybody, visitors included" },
  { value: "studio", label: "People of the studio" },
  { value: "private", label: "Only me and the manager" },
];

const ShownTo = ({ value }: { value: string }) => (
  <Choice label="Who may see it" name="shownTo" value={value} options={shownToOptions} />
);
