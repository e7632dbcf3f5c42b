import type { ConeTable, EndPoint } from "../../src/chem/cone-tables.ts";
import { degreesIn } from "../../src/chem/degrees.ts";
import { bothUnits, degreesApart } from "../parts/degrees.ts";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";

/** A table of end points as it is held: what was not seen in print is marked, and its edition named. */
export const EndPoints = ({ table }: { table: ConeTable }) => (
  <details>
    <summary>End points of the {table.series}</summary>
    <p>
      {table.source}. {table.caution} {marks(table)}
    </p>
    <Wide label={`End points of the ${table.series}`}>
      <table class="figures">
        <caption>
          End points, {bothUnits().map((unit, place) => (place === 0 ? `°${unit}` : ` (°${unit})`))}
        </caption>
        <thead>
          <tr>
            <th scope="col">Cone</th>
            {table.rates.length === 0 ? <th scope="col">no rate given</th> : null}
            {table.rates.map((rate) => (
              <th scope="col">{degreesApart(rate)} an hour</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map(({ cone, endPoints }) => (
            <tr>
              <th scope="row">{cone}</th>
              {endPoints.map((endPoint) => (
                <td>{shown(endPoint)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  </details>
);

const shown = (endPoint: EndPoint | null): string =>
  endPoint === null
    ? "not held"
    : `${inBoth(endPoint.celsius)}${endPoint.how === "from memory" ? " *" : ""}`;

const inBoth = (celsius: number): string => {
  const [first, other] = bothUnits().map((unit) => plainNumber(degreesIn(celsius, unit), 0));
  return `${first} (${other})`;
};

const marks = ({ rows }: ConeTable): string =>
  rows.some(({ endPoints }) => endPoints.some((endPoint) => endPoint?.how === "from memory"))
    ? "Figures with * are from memory, not seen in print."
    : "";
