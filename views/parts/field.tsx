/** One thing to put right: where it is, as the request's path, and what to do about it. */
export type Fault = { path: string; says: string };

/** What is wrong with the field of that name, if anything. */
export const faultAt = (faults: readonly Fault[], path: string): string | undefined =>
  faults.find((fault) => fault.path === path)?.says;

/**
 * The id of the control that a fault's path belongs to. `lines.0.amount` and the form's
 * `lines[0][amount]` give the same id.
 */
export const idOfField = (path: string): string =>
  `field-${path.replace(/\[([^\]]*)\]/g, ".$1").replace(/[^A-Za-z0-9_.-]+/g, "-")}`;

type Told = { hint?: string | undefined; fault?: string | undefined };

type LabelledProps = Told & { label: string; name: string };

type FieldProps = LabelledProps & {
  value?: string | undefined;
  type?:
    | "text"
    | "email"
    | "password"
    | "number"
    | "date"
    | "datetime-local"
    | "search"
    | "url"
    | "tel"
    | undefined;
  required?: boolean | undefined;
  inputmode?: "text" | "decimal" | "numeric" | "email" | "search" | "url" | undefined;
  autocomplete?: string | undefined;
  list?: string | undefined;
  unit?: string | undefined;
  maxlength?: number | undefined;
};

/** A one-line answer with its label, hint, unit and what is wrong with it. */
export const Field = (props: FieldProps) => (
  <div class={props.fault ? "field field-faulty" : "field"}>
    <Label name={props.name} label={props.label} required={props.required} />
    <Hint name={props.name} hint={props.hint} />
    <FaultLine name={props.name} fault={props.fault} />
    <span class="field-control">
      <input
        id={idOfField(props.name)}
        name={props.name}
        type={props.type ?? "text"}
        value={props.value}
        required={props.required}
        inputmode={props.inputmode}
        autocomplete={props.autocomplete}
        list={props.list}
        maxlength={props.maxlength}
        {...tied(props)}
      />
      {props.unit ? (
        <span class="field-unit" id={`${idOfField(props.name)}-unit`}>
          {props.unit}
        </span>
      ) : null}
    </span>
  </div>
);

type TextAreaProps = LabelledProps & {
  value?: string | undefined;
  required?: boolean | undefined;
  rows?: number | undefined;
  maxlength?: number | undefined;
  autocomplete?: string | undefined;
};

/** An answer of several lines. */
export const TextArea = (props: TextAreaProps) => (
  <div class={props.fault ? "field field-faulty" : "field"}>
    <Label name={props.name} label={props.label} required={props.required} />
    <Hint name={props.name} hint={props.hint} />
    <FaultLine name={props.name} fault={props.fault} />
    <textarea
      id={idOfField(props.name)}
      name={props.name}
      rows={props.rows ?? 4}
      required={props.required}
      maxlength={props.maxlength}
      autocomplete={props.autocomplete}
      {...tied(props)}
    >
      {props.value ?? ""}
    </textarea>
  </div>
);

type ChoiceProps = LabelledProps & {
  options: readonly { value: string; label: string }[];
  value?: string | undefined;
  required?: boolean | undefined;
};

/** One of a few answers. */
export const Choice = (props: ChoiceProps) => (
  <div class={props.fault ? "field field-faulty" : "field"}>
    <Label name={props.name} label={props.label} required={props.required} />
    <Hint name={props.name} hint={props.hint} />
    <FaultLine name={props.name} fault={props.fault} />
    <select id={idOfField(props.name)} name={props.name} required={props.required} {...tied(props)}>
      {props.options.map((option) => (
        <option value={option.value} selected={option.value === props.value}>
          {option.label}
        </option>
      ))}
    </select>
  </div>
);

type LabelProps = { name: string; label: string; required?: boolean | undefined };

const Label = ({ name, label, required }: LabelProps) => (
  <label for={idOfField(name)}>
    {label}
    {required ? <span class="field-required"> (required)</span> : null}
  </label>
);

const Hint = ({ name, hint }: { name: string; hint: string | undefined }) =>
  hint ? (
    <span class="field-hint" id={`${idOfField(name)}-hint`}>
      {hint}
    </span>
  ) : null;

const FaultLine = ({ name, fault }: { name: string; fault: string | undefined }) =>
  fault ? (
    <span class="field-fault" id={`${idOfField(name)}-fault`}>
      <span class="hidden-words">To put right: </span>
      {fault}
    </span>
  ) : null;

type TiedProps = Told & { name: string; unit?: string | undefined };

/** What ties a control to its fault, hint and unit for whoever hears the page. */
const tied = ({ name, hint, fault, unit }: TiedProps) => {
  const parts = [fault ? "fault" : "", hint ? "hint" : "", unit ? "unit" : ""].filter(Boolean);
  const ids = parts.map((part) => `${idOfField(name)}-${part}`).join(" ");
  return {
    "aria-describedby": ids === "" ? undefined : ids,
    "aria-invalid": fault ? ("true" as const) : undefined,
  };
};

/**
 * Everything to put right in one place, each line leading to its field. A fault of the whole form
 * (an empty path) has no field and stays words. Nothing wrong shows nothing.
 */
export const FaultSummary = ({ faults }: { faults: readonly Fault[] }) =>
  faults.length === 0 ? null : (
    <div class="faults" id="faults" role="alert" tabindex={-1}>
      <h2>
        {faults.length === 1 ? "One thing to put right" : `${faults.length} things to put right`}
      </h2>
      <ul>
        {faults.map(({ path, says }) => (
          <li>{path === "" ? says : <a href={`#${idOfField(path)}`}>{says}</a>}</li>
        ))}
      </ul>
    </div>
  );
