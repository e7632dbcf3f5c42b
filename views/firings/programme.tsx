import { rampOf, roomCelsius, type Step } from "../../src/chem/programme.ts";
import { FiringRamp } from "../charts/firing-ramp.tsx";
import { degreeSign, degrees, wholeDegrees, wholeSpan } from "../parts/degrees.ts";
import { Wide } from "../parts/wide.tsx";
import { hoursInWords } from "./firing-words.ts";

type ProgrammeProps = {
  programme: readonly Step[];
  /** It is drawn with what the kiln did, and need not be drawn twice. */
  drawnAbove: boolean;
};

/** A kiln's programme as it was set: a drawing, and the same in a table. */
export const Programme = ({ programme, drawnAbove }: ProgrammeProps) =>
  programme.length === 0 ? (
    <p>No programme is on record.</p>
  ) : (
    <figure class="programme">
      {drawnAbove ? null : <FiringRamp programme={programme} />}
      <figcaption>
        What the kiln was set to do, from {degrees(roomCelsius)}. What it did may differ: elements
        age, and a full kiln is slow.
      </figcaption>
      <Wide label="The programme as a table">
        <table class="figures">
          <caption>Programme</caption>
          <thead>
            <tr>
              {[
                "Step",
                `${degreeSign()} an hour`,
                `to ${degreeSign()}`,
                "hold, min",
                "over at",
              ].map((head) => (
                <th scope="col">{head}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {programme.map((step, place) => (
              <tr>
                <th scope="row">{place + 1}</th>
                <td>{wholeSpan(step.celsiusPerHour)}</td>
                <td>{wholeDegrees(step.toCelsius)}</td>
                <td>{step.holdMinutes}</td>
                <td>{hoursInWords(overAfter(programme, place))}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </figure>
  );

/** How long after the start a step is over. */
const overAfter = (programme: readonly Step[], place: number): number =>
  rampOf(programme.slice(0, place + 1)).at(-1)?.hours ?? 0;
