import { type Oxide, oxides } from "../../src/chem/oxides.ts";
import { Choice, Field, idOfField } from "../parts/field.tsx";
import { OxideName } from "../parts/oxide.tsx";
import { Wide } from "../parts/wide.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";

type AnalysisFieldsProps = {
  /** What stands before the names of the fields of the oxides: `analysis.` or nothing. */
  prefix: string;
  typed: Typed;
  faults: Faults;
};

/** In the order of a supplier's sheet; the others follow below. */
const usual: readonly Oxide[] = [
  "SiO2",
  "Al2O3",
  "Fe2O3",
  "TiO2",
  "CaO",
  "MgO",
  "K2O",
  "Na2O",
  "Li2O",
  "B2O3",
  "BaO",
  "ZnO",
  "MnO",
  "P2O5",
];

const further = oxides.filter((oxide) => !usual.includes(oxide));

/** What is in a powder: a formula, or percent by oxide with the loss on ignition. */
export const AnalysisFields = ({ prefix, typed, faults }: AnalysisFieldsProps) => {
  const path = (oxide: Oxide) => `${prefix}oxides.${oxide}`;
  const used = further.some((oxide) =>
    [path(oxide), `${path(oxide)}.percent`, `${path(oxide)}.plusMinus`].some(
      (at) => typed(at) !== "" || faultAt(faults, at) !== undefined,
    ),
  );
  const whole = faultAt(faults, `${prefix}oxides`) ?? faultAt(faults, prefix.replace(/\.$/, ""));
  const row = (oxide: Oxide): Row => ({ path: path(oxide), name: oxide, typed, faults });
  const loss = { path: `${prefix}lossOnIgnition`, name: "Loss on ignition", typed, faults };
  return (
    <>
      <fieldset>
        <legend>Either a formula</legend>
        <Field
          label="Formula"
          name="formula"
          value={typed("formula")}
          fault={faultAt(faults, "formula")}
          hint="As in CaCO3 or K2O·Al2O3·6SiO2, parts joined by · or a full stop."
          maxlength={200}
          autocomplete="off"
        />
        <label>
          <input
            type="checkbox"
            id={idOfField("ideal")}
            name="ideal"
            checked={typed("ideal") !== ""}
          />
          It is exactly this formula, with no ± (a textbook mineral, no real powder)
        </label>
        <FaultLine says={faultAt(faults, "ideal")} />
      </fieldset>
      <fieldset id={idOfField(`${prefix}oxides`)} tabindex={-1}>
        <legend>Or what was measured</legend>
        <FaultLine says={whole} />
        <Choice
          label="The percents are of"
          name={`${prefix}basis`}
          value={typed(`${prefix}basis`)}
          fault={faultAt(faults, `${prefix}basis`)}
          options={[
            { value: "", label: "the powder as weighed" },
            { value: "calcined", label: "what is left after firing (calcined)" },
          ]}
        />
        <OxideTable caption="Percent by weight" rows={[...usual.map(row), loss]}>
          {usual.map((oxide) => (
            <FigureRow {...row(oxide)}>
              <OxideName oxide={oxide} />
            </FigureRow>
          ))}
          <FigureRow {...loss}>Loss on ignition</FigureRow>
        </OxideTable>
        <p>
          Leave empty what the sheet does not list. The ± is the one for 95 times in 100. A ± that
          is left empty is assumed, and a loss that is left empty is taken as what is missing from
          100; both are marked on the page.
        </p>
        <details open={used}>
          <summary>Further oxides</summary>
          <OxideTable caption="Further oxides" rows={further.map(row)}>
            {further.map((oxide) => (
              <FigureRow {...row(oxide)}>
                <OxideName oxide={oxide} />
              </FigureRow>
            ))}
          </OxideTable>
        </details>
      </fieldset>
    </>
  );
};

type OxideTableProps = { caption: string; rows: readonly Row[]; children?: unknown };

const OxideTable = ({ caption, rows, children }: OxideTableProps) => (
  <>
    <TableFaults rows={rows} />
    <Wide label={caption}>
      <table class="figures">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Oxide</th>
            <th scope="col">Percent</th>
            <th scope="col">±</th>
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </Wide>
  </>
);

type Row = { path: string; name: string; typed: Typed; faults: Faults };

const FigureRow = ({ children, ...row }: Row & { children?: unknown }) => (
  <tr id={idOfField(row.path)} tabindex={-1}>
    <th scope="row">{children}</th>
    {cellsOf(row).map((cell) => (
      <FigureCell {...cell} />
    ))}
  </tr>
);

type Cell = { path: string; label: string; value: string; fault: string | undefined };

/** The two cells of a row; what is wrong with the row as a whole stands at its percent. */
const cellsOf = ({ path, name, typed, faults }: Row): Cell[] =>
  [
    { path: `${path}.percent`, label: `${name}, percent`, row: path },
    { path: `${path}.plusMinus`, label: `${name}, plus or minus`, row: "" },
  ].map(({ row, ...cell }) => ({
    ...cell,
    value: typed(cell.path),
    fault: faultAt(faults, cell.path) ?? (row === "" ? undefined : faultAt(faults, row)),
  }));

const FigureCell = ({ path, label, value, fault }: Cell) => (
  <td class={fault ? "field-faulty" : undefined}>
    <input
      id={idOfField(path)}
      name={path}
      value={value}
      inputmode="decimal"
      autocomplete="off"
      maxlength={40}
      size={6}
      aria-label={label}
      aria-invalid={fault ? "true" : undefined}
      aria-describedby={fault ? `${idOfField(path)}-fault` : undefined}
    />
  </td>
);

/** What is wrong in a table, above it: in a cell the words would push the others aside. */
const TableFaults = ({ rows }: { rows: readonly Row[] }) => (
  <>
    {rows.flatMap(cellsOf).map(({ path, label, fault }) =>
      fault ? (
        <p class="field-fault" id={`${idOfField(path)}-fault`}>
          {label}: {fault}
        </p>
      ) : null,
    )}
  </>
);

const FaultLine = ({ says }: { says: string | undefined }) =>
  says ? (
    <p class="field-faulty">
      <span class="field-fault">{says}</span>
    </p>
  ) : null;
