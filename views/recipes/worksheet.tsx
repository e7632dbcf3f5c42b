import type { Child } from "hono/jsx";
import { type Fault, idOfField } from "../parts/field.tsx";

/** One row as it was typed. */
export type WorksheetLine = {
  part: "base" | "addition";
  material: string;
  amount: string;
  formula: string;
};

type WorksheetProps = {
  lines: readonly WorksheetLine[];
  /** The path of the lines' parent in the form, with its dot: `revision.` or nothing. */
  prefix: string;
  faults: readonly Fault[];
  materialNames: readonly string[];
  /** Whether a line may be a formula of its own instead of a powder of the shelf. */
  formulas?: boolean | undefined;
};

const blankRows = { base: 2, addition: 1 } as const;

/** The lines of a recipe to fill in: base and additions apart, blank rows at the end of each. */
export const Worksheet = ({ lines, prefix, faults, materialNames, formulas }: WorksheetProps) => {
  const base = lines.filter(({ part }) => part === "base");
  const additions = lines.filter(({ part }) => part === "addition");
  const row = (line: WorksheetLine, index: number) => (
    <Row line={line} index={index} prefix={prefix} faults={faults} formulas={formulas} />
  );
  const firstBlank = lines.length;
  const blanksFrom = (part: "base" | "addition", from: number) =>
    Array.from({ length: base.length === 0 && part === "base" ? 4 : blankRows[part] }, (_, n) =>
      row({ part, material: "", amount: "", formula: "" }, from + n),
    );
  const baseBlanks = blanksFrom("base", firstBlank);
  return (
    <>
      <datalist id="materials-on-the-shelf">
        {materialNames.map((name) => (
          <option value={name} />
        ))}
      </datalist>
      <Group heading="Base" says="What the glaze is; it usually totals 100.">
        {base.map((line, index) => row(line, index))}
        {baseBlanks}
      </Group>
      <Group
        heading="Additions"
        says="Colourants and opacifiers on top of the base, in the same parts."
      >
        {additions.map((line, index) => row(line, base.length + index))}
        {blanksFrom("addition", firstBlank + baseBlanks.length)}
      </Group>
      <p class="buttons">
        <button type="submit" name="change" value="work-out">
          Work out, and more rows
        </button>
        <button type="submit" name="change" value="to-100">
          Bring the base to 100
        </button>
      </p>
    </>
  );
};

type GroupProps = { heading: string; says: string; children?: Child };

const Group = ({ heading, says, children }: GroupProps) => (
  <fieldset class="sheet-group">
    <legend>{heading}</legend>
    <p class="field-hint">{says}</p>
    <ol class="sheet-rows">{children}</ol>
  </fieldset>
);

type RowProps = {
  line: WorksheetLine;
  index: number;
  prefix: string;
  faults: readonly Fault[];
  formulas: boolean | undefined;
};

const Row = ({ line, index, prefix, faults, formulas }: RowProps) => {
  const path = `${prefix}lines.${index}`;
  const which = line.material || line.formula || `${line.part} row`;
  const cell = { path, index, faults };
  return (
    <li class="sheet-row">
      <input type="hidden" name={`${path}.part`} value={line.part} />
      <Cell
        {...cell}
        of="material"
        label="Material"
        value={line.material}
        list="materials-on-the-shelf"
      />
      <Cell {...cell} of="amount" label="Amount" value={line.amount} inputmode="decimal" />
      {formulas ? (
        <Cell
          {...cell}
          of="formula"
          label="Formula, if it is not on the shelf"
          value={line.formula}
        />
      ) : null}
      {line.material || line.amount || line.formula ? (
        <button
          type="submit"
          class="quiet"
          name="change"
          value={`drop-${index}`}
          aria-label={`Remove ${which}`}
        >
          Remove
        </button>
      ) : null}
    </li>
  );
};

type CellProps = {
  path: string;
  index: number;
  faults: readonly Fault[];
  of: "material" | "amount" | "formula";
  label: string;
  value: string;
  list?: string | undefined;
  inputmode?: "decimal" | undefined;
};

const Cell = ({ path, index, faults, of, label, value, list, inputmode }: CellProps) => {
  const name = `${path}.${of}`;
  const id = idOfField(name);
  const fault = faults.find((known) => known.path === name || known.path.startsWith(`${name}.`));
  return (
    <span class={`sheet-cell sheet-${of}`}>
      <label for={id}>
        {label}
        <span class="hidden-words">, row {index + 1}</span>
      </label>
      <input
        id={id}
        name={name}
        value={value}
        list={list}
        inputmode={inputmode}
        autocomplete="off"
        maxlength={of === "formula" ? 200 : 80}
        aria-invalid={fault ? "true" : undefined}
        aria-describedby={fault ? `${id}-fault` : undefined}
      />
      {fault ? (
        <span class="field-fault" id={`${id}-fault`}>
          {fault.says}
        </span>
      ) : null}
    </span>
  );
};
