import type { Decimal } from "decimal.js";
import { inUnit, type WeightUnit } from "../../src/chem/batch-amounts.ts";
import type { Part } from "../../src/chem/lines.ts";
import { Wide } from "../parts/wide.tsx";

type ShownLine = {
  part: Part;
  material: { slug: string; name: string };
  grams: Decimal;
  runningGrams: Decimal;
  coarse: { percent: Decimal; smallestGrams: Decimal } | undefined;
};

export type ShownSheet = {
  /** In the order to weigh them. */
  lines: readonly ShownLine[];
  baseGrams: Decimal;
  totalGrams: Decimal;
  scaleGrams: Decimal;
  filled?: { waterGrams: Decimal; says: string } | undefined;
  unit: WeightUnit;
  /** The powder that this batch uses up. */
  usesUp: string | undefined;
};

/** The weights of a batch, additions apart, with a box to tick by hand. */
export const BatchWeights = ({ sheet }: { sheet: ShownSheet }) => {
  const { lines, baseGrams, totalGrams, unit, usesUp, filled } = sheet;
  return (
    <section id="weights">
      <h2>Weigh, in this order</h2>
      <p>
        {baseGrams.toFixed()} g of base
        {unit === "g" ? null : `, ${inUnit(baseGrams, unit).toFixed()} ${unit}`}, additions on top.
        {usesUp ? ` As much as there is of ${usesUp}.` : null}
      </p>
      {filled ? (
        <p class="answer">
          Start with water: {filled.waterGrams.toFixed()} g, and keep a tenth of it for the end.{" "}
          <span class="aside">{filled.says}</span>
        </p>
      ) : (
        <p>Powder goes into water, never water onto powder.</p>
      )}
      <Wide label="The weights as a table">
        <table class="figures weigh-table">
          <caption>On a scale with steps of {sheet.scaleGrams.toFixed()} g</caption>
          <thead>
            <tr>
              <th scope="col">In</th>
              <th scope="col">Powder</th>
              <th scope="col">Weigh</th>
              {unit === "g" ? null : <th scope="col">In {unit}</th>}
              <th scope="col">Bucket holds</th>
            </tr>
          </thead>
          <PartRows lines={lines} part="base" called="Base" unit={unit} />
          <PartRows lines={lines} part="addition" called="Additions, on top" unit={unit} />
          <tfoot>
            <tr>
              <td />
              <th scope="row">In all</th>
              <td>{totalGrams.toFixed()} g</td>
              {unit === "g" ? null : <td>{inUnit(totalGrams, unit).toFixed()}</td>}
              <td />
            </tr>
          </tfoot>
        </table>
      </Wide>
      {lines.map(({ material, coarse }) =>
        coarse ? (
          <p class="coarse">
            <strong>{material.name}:</strong> this scale is too coarse for so small a batch. The
            weight is {coarse.percent.toDecimalPlaces(1).toFixed()} % off; from{" "}
            {coarse.smallestGrams.toFixed()} g of base it is within 2 %.
          </p>
        ) : null,
      )}
    </section>
  );
};

type PartProps = { lines: readonly ShownLine[]; part: Part; called: string; unit: WeightUnit };

const PartRows = ({ lines, part, called, unit }: PartProps) => {
  const here = lines.filter((line) => line.part === part);
  return here.length === 0 ? null : (
    <tbody>
      <tr>
        <th scope="rowgroup" colspan={unit === "g" ? 4 : 5}>
          {called}
        </th>
      </tr>
      {here.map(({ material, grams, runningGrams }) => (
        <tr>
          <td class="tick-box">☐</td>
          <th scope="row">{material.name}</th>
          <td>
            <strong>{grams.toFixed()} g</strong>
          </td>
          {unit === "g" ? null : <td>{inUnit(grams, unit).toFixed()}</td>}
          <td>{runningGrams.toFixed()} g</td>
        </tr>
      ))}
    </tbody>
  );
};
