import type { Decimal } from "decimal.js";
import { inUnit, type WeightUnit } from "../../src/chem/batch-amounts.ts";
import type { Part } from "../../src/chem/lines.ts";
import { LookAlikes, PowderName, powderName } from "../parts/powder-name.tsx";
import { poundsByPart, poundsOf } from "../parts/weights.ts";
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
  const rows = rowsOf(lines, unit);
  return (
    <section id="weights">
      <h2>Weigh, in this order</h2>
      <p>
        {baseGrams.toFixed()} g of base
        {unit === "g" ? null : `, ${beside(baseGrams, unit)}`}, additions on top.
        {usesUp ? ` As much as there is of ${powderName(usesUp)}.` : null}
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
              {unit === "g" ? null : (
                <th scope="col">{unit === "lb" ? "In lb and oz" : `In ${unit}`}</th>
              )}
              <th scope="col">Bucket holds</th>
            </tr>
          </thead>
          <PartRows rows={rows} part="base" called="Base" unit={unit} />
          <PartRows rows={rows} part="addition" called="Additions, on top" unit={unit} />
          <tfoot>
            <tr>
              <td />
              <th scope="row">In all</th>
              <td>{totalGrams.toFixed()} g</td>
              {unit === "g" ? null : <td>{beside(totalGrams, unit)}</td>}
              <td />
            </tr>
          </tfoot>
        </table>
      </Wide>
      {unit === "lb" ? <p>Weigh by the grams: the scale shows those.</p> : null}
      <LookAlikes names={lines.map(({ material }) => material.name)} />
      {lines.map(({ material, coarse }) =>
        coarse ? (
          <p class="coarse">
            <strong>{powderName(material.name)}:</strong> this scale is too coarse for so small a
            batch. The weight is {coarse.percent.toDecimalPlaces(1).toFixed()} % off; from{" "}
            {coarse.smallestGrams.toFixed()} g of base it is within 2 %.
          </p>
        ) : null,
      )}
    </section>
  );
};

type Row = ShownLine & { beside: string };

/** Each weight in the other unit; a column of them adds up to its total as it is printed. */
function rowsOf(lines: readonly ShownLine[], unit: WeightUnit): Row[] {
  const pounds = poundsByPart(lines);
  return lines.map((line, place) => ({
    ...line,
    beside: unit === "lb" ? (pounds[place] ?? "") : beside(line.grams, unit),
  }));
}

const beside = (grams: Decimal, unit: WeightUnit): string =>
  unit === "lb" ? poundsOf(grams) : `${inUnit(grams, unit).toFixed()} ${unit}`;

type PartProps = { rows: readonly Row[]; part: Part; called: string; unit: WeightUnit };

const PartRows = ({ rows, part, called, unit }: PartProps) => {
  const here = rows.filter((row) => row.part === part);
  return here.length === 0 ? null : (
    <tbody>
      <tr>
        <th scope="rowgroup" colspan={unit === "g" ? 4 : 5}>
          {called}
        </th>
      </tr>
      {here.map(({ material, grams, runningGrams, beside: other }) => (
        <tr>
          <td class="tick-box">☐</td>
          <th scope="row">
            <PowderName name={material.name} />
          </th>
          <td>
            <strong>{grams.toFixed()} g</strong>
          </td>
          {unit === "g" ? null : <td>{other}</td>}
          <td>{runningGrams.toFixed()} g</td>
        </tr>
      ))}
    </tbody>
  );
};
