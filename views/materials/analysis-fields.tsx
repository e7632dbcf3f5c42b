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
  const rows = { typed, faults };
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
        <OxideTable caption="Percent by weight, with its ± where the sheet gives one">
          {usual.map((oxide) => (
            <FigureRow path={path(oxide)} {...rows} name={oxide}>
              <OxideName oxide={oxide} />
            </FigureRow>
          ))}
          <FigureRow path={`${prefix}lossOnIgnition`} {...rows} name="Loss on ignition">
            Loss on ignition
          </FigureRow>
        </OxideTable>
        <p>
          Leave empty what the sheet does not list. A ± that is left empty is assumed, and a loss
          that is left empty is taken as what is missing from 100; both are marked on the page.
        </p>
        <details open={used}>
          <summary>Further oxides</summary>
          <OxideTable caption="Further oxides">
            {further.map((oxide) => (
              <FigureRow path={path(oxide)} {...rows} name={oxide}>
                <OxideName oxide={oxide} />
              </FigureRow>
            ))}
          </OxideTable>
        </details>
      </fieldset>
    </>
  );
};

const OxideTable = ({ caption, children }: { caption: string; children?: unknown }) => (
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
);

type FigureRowProps = {
  path: string;
  name: string;
  typed: Typed;
  faults: Faults;
  children?: unknown;
};

const FigureRow = ({ path, name, typed, faults, children }: FigureRowProps) => (
  <tr id={idOfField(path)} tabindex={-1}>
    <th scope="row">{children}</th>
    <FigureCell
      path={`${path}.percent`}
      label={`${name}, percent`}
      value={typed(`${path}.percent`)}
      fault={faultAt(faults, `${path}.percent`) ?? faultAt(faults, path)}
    />
    <FigureCell
      path={`${path}.plusMinus`}
      label={`${name}, plus or minus`}
      value={typed(`${path}.plusMinus`)}
      fault={faultAt(faults, `${path}.plusMinus`)}
    />
  </tr>
);

type FigureCellProps = {
  path: string;
  label: string;
  value: string;
  fault: string | undefined;
};

const FigureCell = ({ path, label, value, fault }: FigureCellProps) => (
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
    {fault ? (
      <span class="field-fault" id={`${idOfField(path)}-fault`}>
        {fault}
      </span>
    ) : null}
  </td>
);

const FaultLine = ({ says }: { says: string | undefined }) =>
  says ? (
    <p class="field-faulty">
      <span class="field-fault">{says}</span>
    </p>
  ) : null;
