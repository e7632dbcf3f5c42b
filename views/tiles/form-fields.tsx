import { Choice, Field, TextArea } from "../parts/field.tsx";
import { capital, coneChoices } from "./cone-words.ts";
import { defects, defectWords } from "./defect-words.ts";

type Told = (name: string) => { name: string; value: string; fault: string | undefined };

export type ChosenFiring = {
  id: string;
  kiln: { name: string };
  kind: string;
  cone: string;
  startedAt: Date;
};

/** Whether any of some fields was filled in or has to be put right, so that its fold stands open. */
export const isSaid = (fields: readonly ReturnType<Told>[]): boolean =>
  fields.some(({ value, fault }) => value !== "" || fault !== undefined);

export const optionsOf = (values: readonly string[], none = "not told") => [
  { value: "", label: none },
  ...values.map((value) => ({ value, label: value })),
];

export const coneOptions = (none: string) => [{ value: "", label: none }, ...coneChoices()];

type FiringFieldsProps = { told: Told; firings: readonly ChosenFiring[] };

/** Which firing it stood in; what follows from that need not be said. */
export const FiringFields = ({ told, firings }: FiringFieldsProps) => (
  <fieldset>
    <legend>The firing</legend>
    <Choice
      {...told("firing")}
      label="Firing on record"
      options={[
        { value: "", label: "none that is on record" },
        ...firings.map(({ id, kiln, kind, cone, startedAt }) => ({
          value: id,
          label: `${kiln.name}, ${startedAt.toISOString().slice(0, 10)}, ${kind}, for cone ${cone}`,
        })),
      ]}
      hint="Without one no witness cone stands for the tile, and it does not count towards functional ware."
    />
    <Field
      {...told("place")}
      label="Place in the kiln"
      maxlength={80}
      hint="Such as: top shelf, by the door."
    />
  </fieldset>
);

type ClayFieldsProps = { told: Told; bodies: readonly { slug: string; name: string }[] };

/** What the tile is made of. */
export const ClayFields = ({ told, bodies }: ClayFieldsProps) => (
  <fieldset>
    <legend>The clay</legend>
    <Choice
      {...told("body")}
      label="Body on record"
      options={[
        { value: "", label: "none that is on record" },
        ...bodies.map(({ slug, name }) => ({ value: slug, label: name })),
      ]}
      hint="The same glaze differs from clay to clay."
    />
    <Choice {...told("bisqueCone")} label="Bisque cone" options={coneOptions("not told")} />
  </fieldset>
);

type UnrecordedFieldsProps = { told: Told; atmospheres: readonly string[] };

/** What a firing and a body on record would tell: folded away for who chose them. */
export const UnrecordedFields = ({ told, atmospheres }: UnrecordedFieldsProps) => (
  <details open={isSaid(["atmosphere", "firedOn", "clay"].map(told))}>
    <summary>No firing or body on record? Say it here</summary>
    <Choice
      {...told("atmosphere")}
      label="Atmosphere, where no firing is chosen"
      options={optionsOf(atmospheres, "as the firing or the revision says")}
    />
    <Field {...told("firedOn")} label="Fired on, where no firing is chosen" type="date" />
    <Field
      {...told("clay")}
      label="Clay in words, where no body is chosen"
      maxlength={80}
      hint="Such as: brick clay from the estuary."
    />
  </details>
);

type OutcomeFieldsProps = {
  told: Told;
  ticked: (defect: string) => boolean;
  fault: string | undefined;
};

/** What came out. */
export const OutcomeFields = ({ told, ticked, fault }: OutcomeFieldsProps) => (
  <>
    <Field
      {...told("outcome.surface")}
      label="Surface"
      maxlength={60}
      hint="As it came out, such as: satin, breaking rust."
    />
    <Choice
      {...told("outcome.transparency")}
      label="Transparency"
      options={optionsOf(["clear", "translucent", "opaque"])}
    />
    <Choice
      {...told("outcome.movement")}
      label="In the fire it"
      options={optionsOf(["stays put", "moves a little", "moves", "runs"])}
      hint="How far it went down the tile."
    />
    <fieldset id="field-defects" tabindex={-1}>
      <legend>Defects</legend>
      <p>Tick what is to be seen. The causes are the usual ones, by common practice.</p>
      {fault ? <p class="field-fault">{fault}</p> : null}
      <div class="ticks">
        {defects.map((defect) => (
          <div class="tick">
            <label>
              <input
                type="checkbox"
                name="defects"
                value={defect}
                checked={ticked(defect)}
                aria-describedby={`means-${defect}`}
              />
              {capital(defect)}
            </label>
            <span class="field-hint" id={`means-${defect}`}>
              {defectWords[defect]}
            </span>
          </div>
        ))}
      </div>
    </fieldset>
    <TextArea
      {...told("remark")}
      label="Remark"
      maxlength={2000}
      hint="What else is to be seen: colour, runs, texture; how it was put on."
    />
  </>
);
