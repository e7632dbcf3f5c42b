import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { When } from "../people/when.tsx";
import type { ShownReading } from "./care-types.ts";

/** What was measured of a bucket, newest first. */
export const ReadingTable = ({ readings }: { readings: readonly ShownReading[] }) => (
  <Wide label="Readings">
    <table class="lines readings">
      <caption>Readings, newest first</caption>
      <thead>
        <tr>
          <th scope="col">When</th>
          <th scope="col" class="number">
            Gravity
          </th>
          <th scope="col" class="number">
            Litres
          </th>
          <th scope="col" class="number">
            Flow, s
          </th>
          <th scope="col" class="number">
            Coat, mm
          </th>
          <th scope="col" class="number">
            °C
          </th>
          <th scope="col" class="number">
            Dry powder
          </th>
          <th scope="col">By</th>
        </tr>
      </thead>
      <tbody>
        {readings.map((reading) => (
          <tr>
            <th scope="row">
              <When at={reading.at} />
            </th>
            <td class="number">{reading.specificGravity?.toFixed() ?? "–"}</td>
            <td class="number">{reading.litres?.toFixed() ?? "–"}</td>
            <td class="number">{reading.flowSeconds?.toFixed() ?? "–"}</td>
            <td class="number">{reading.coatMm?.toFixed() ?? "–"}</td>
            <td class="number">{reading.celsius?.toFixed() ?? "–"}</td>
            <td class="number">
              <Dry {...reading} />
            </td>
            <td>
              {reading.by}, {reading.stirred ? "stirred" : "not stirred"}
              {reading.note === "" ? null : `: ${reading.note}`}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);

const Dry = ({ dry }: ShownReading) =>
  dry ? (
    <span class="quantity">
      {plainNumber(dry.dryGrams / 1000, 2)}
      <span class="quantity-doubt"> ± {plainNumber(dry.dryPlusMinus / 1000, 2)}</span> kg
    </span>
  ) : (
    <>–</>
  );
