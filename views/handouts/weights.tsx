import type { Decimal } from "decimal.js";
import type { WeightUnit } from "../../src/chem/batch-amounts.ts";
import { Wide } from "../parts/wide.tsx";
import { nameOf } from "./family.tsx";
import type { ShownHandout, ShownLine, ShownPiece } from "./types.ts";

const places: Readonly<Record<WeightUnit, number>> = { g: 1, kg: 3, lb: 3 };

type WeightsProps = { piece: ShownPiece; handout: ShownHandout };

/** What to weigh for a test and for a tub; each column adds up to its total. */
export const Weights = ({ piece, handout }: WeightsProps) => {
  const { lines, test, tub, coarse } = piece;
  const inTub = (weight: Decimal) => weight.toFixed(places[tub.unit]);
  const part = (which: ShownLine["part"]) => lines.filter((line) => line.part === which);
  const additions = part("addition");
  return (
    <>
      <h3>What to weigh</h3>
      <Wide label={`What to weigh of ${piece.recipe.name}`}>
        <table class="lines weighing">
          <caption>
            {piece.recipe.name}, revision {piece.number}
          </caption>
          <thead>
            <tr>
              <th scope="col">Powder</th>
              <th scope="col" class="number">
                % of base
              </th>
              <th scope="col" class="number">
                Test of {test.baseGrams.toFixed()} g, g
              </th>
              <th scope="col" class="number">
                Tub of {tub.base.toFixed()} {tub.unit}, {tub.unit}
              </th>
            </tr>
          </thead>
          <tbody>
            {part("base").map((line) => (
              <Row line={line} handout={handout} inTub={inTub} />
            ))}
            <tr class="total">
              <th scope="row">Base</th>
              <td class="number">100</td>
              <td class="number">{test.baseGrams.toFixed(2)}</td>
              <td class="number">{inTub(tub.base)}</td>
            </tr>
          </tbody>
          {additions.length === 0 ? null : (
            <tbody>
              <tr>
                <th scope="rowgroup" colspan={4} class="group">
                  Additions, on top of the base
                </th>
              </tr>
              {additions.map((line) => (
                <Row line={line} handout={handout} inTub={inTub} />
              ))}
              <tr class="total">
                <th scope="row">Altogether</th>
                <td />
                <td class="number">{test.totalGrams.toFixed(2)}</td>
                <td class="number">{inTub(tub.total)}</td>
              </tr>
            </tbody>
          )}
        </table>
      </Wide>
      {coarse.map((says) => (
        <p class="coarse">{says}</p>
      ))}
      <p>
        Powder goes into water, never water onto powder. Sieve it through 80 to 100 mesh unless the
        recipe says otherwise; gums rot and crystals settle out in time, so write the day on the
        tub.
      </p>
    </>
  );
};

type RowProps = { line: ShownLine; handout: ShownHandout; inTub: (weight: Decimal) => string };

const Row = ({ line, handout, inTub }: RowProps) => (
  <tr>
    <th scope="row">{nameOf(handout, line.slug, line.name)}</th>
    <td class="number">{line.percent.toDecimalPlaces(2).toFixed()}</td>
    <td class="number">{line.testGrams.toFixed(2)}</td>
    <td class="number">{inTub(line.tub)}</td>
  </tr>
);
