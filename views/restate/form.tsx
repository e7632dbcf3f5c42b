import type { Oxide } from "../../src/chem/oxides.ts";
import { FaultSummary, Field, faultAt, idOfField, TextArea } from "../parts/field.tsx";
import { Wide } from "../parts/wide.tsx";
import { Conditions } from "./conditions.tsx";
import { Powders } from "./powders.tsx";
import type { Choice, RestatePageProps } from "./types.ts";

/** The oxides that most base glazes are made of; any other can be restated from lines. */
const offered: readonly Oxide[] = [
  ...(["Li2O", "Na2O", "K2O", "MgO", "CaO", "SrO", "BaO", "ZnO"] as const),
  ...(["Al2O3", "B2O3", "SiO2", "TiO2", "P2O5"] as const),
];

/** What is wanted, and what there is to make it from. */
export const RestateForm = ({
  materials,
  typed,
  faults,
  ...more
}: Omit<RestatePageProps, "found" | "idempotencyKey">) => (
  <form class="sheet screen-only" method="post" action="/restate#restated">
    <FaultSummary faults={faults} />
    <TextArea
      label="Glaze"
      name="target.text"
      value={typed.text("target.text")}
      fault={faultAt(faults, "target.text") ?? faultAt(faults, "target")}
      hint="A recipe's address, such as slack-water or slack-water@2, or its lines: a name and an amount in each row, additions with a + before them."
      rows={3}
    />
    <details open={offered.some((oxide) => typed.text(`target.unity.${oxide}`) !== "")}>
      <summary>Or a unity formula</summary>
      <p>
        Moles, with the fluxes adding up to 1. What you leave empty of the fluxes, Al2O3, B2O3 and
        SiO2 is wanted at 0; other oxides are free unless you give them.
      </p>
      <div class="unity-boxes">
        {offered.map((oxide) => (
          <Field
            label={oxide}
            name={`target.unity.${oxide}`}
            value={typed.text(`target.unity.${oxide}`)}
            fault={faultAt(faults, `target.unity.${oxide}`)}
            inputmode="decimal"
            autocomplete="off"
          />
        ))}
      </div>
    </details>
    <fieldset>
      <legend>From these materials</legend>
      <p>
        <label>
          <input type="checkbox" name="allSold" checked={typed.text("allSold") !== ""} /> all that
          are still sold
        </label>
      </p>
      <Wide label="Materials to restate it from">
        <table>
          <thead>
            <tr>
              <th scope="col">Use</th>
              <th scope="col">At least, % of the base</th>
              <th scope="col">At most, %</th>
            </tr>
          </thead>
          <tbody>
            {materials.map((material) => (
              <MaterialRow
                material={material}
                ticked={typed.shelf.includes(material.slug)}
                least={typed.text(`bounds.${material.slug}.least`)}
                most={typed.text(`bounds.${material.slug}.most`)}
              />
            ))}
          </tbody>
        </table>
      </Wide>
      {materials.length === 0 ? (
        <p>There is no material with an analysis on the shelf yet.</p>
      ) : null}
    </fieldset>
    <Field
      label="Materials in the base, at most"
      name="most"
      value={typed.text("most")}
      fault={faultAt(faults, "most")}
      hint="Leave empty for as many as it takes. Few materials are easier to keep; more come nearer."
      inputmode="numeric"
      autocomplete="off"
    />
    <Conditions typed={typed} faults={faults} {...more} />
    <Powders typed={typed} faults={faults} {...more} />
    <p>
      <label>
        <input type="checkbox" name="keepAdditions" checked={typed.text("keepAdditions") !== ""} />{" "}
        keep the additions, in the same percent of the base
      </label>
    </p>
    <div class="buttons">
      <button type="submit" class="main">
        Restate it
      </button>
    </div>
  </form>
);

type RowProps = { material: Choice; ticked: boolean; least: string; most: string };

const MaterialRow = ({ material: { slug, name, stillSold }, ticked, least, most }: RowProps) => (
  <tr>
    <th scope="row">
      <label>
        <input type="checkbox" name="shelf" value={slug} checked={ticked} /> {name}
        {stillSold ? null : " (no longer sold)"}
      </label>
    </th>
    {(["least", "most"] as const).map((end) => (
      <td>
        <input
          id={idOfField(`bounds.${slug}.${end}`)}
          name={`bounds.${slug}.${end}`}
          value={end === "least" ? least : most}
          inputmode="decimal"
          size={5}
          autocomplete="off"
          aria-label={`${name}, at ${end}, percent of the base`}
        />
      </td>
    ))}
  </tr>
);
