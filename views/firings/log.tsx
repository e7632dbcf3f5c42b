import { degreesIn } from "../../src/chem/degrees.ts";
import { logRows } from "../../src/chem/log-table.ts";
import type { Step } from "../../src/chem/programme.ts";
import { FiringLog } from "../charts/firing-log.tsx";
import { bothUnits } from "../parts/degrees.ts";
import { Wide } from "../parts/wide.tsx";
import { When } from "../people/when.tsx";
import { hoursInWords } from "./firing-words.ts";
import type { Log } from "./types.ts";

type LoggedProps = { log: Log; programme: readonly Step[]; all: string };

/** What the kiln did: a drawing over what it was set to do, the same in a table, and all of it to take away. */
export const Logged = ({ log, programme, all }: LoggedProps) => (
  <figure class="programme" id="readings">
    <FiringLog drawn={log.drawn} programme={programme} />
    <figcaption>
      The line is what was read
      {programme.length === 0 ? "" : "; the broken one is what the kiln was set to do"}. Where
      nothing was read, nothing is drawn. {counted(log)} By {log.by.name}, <When at={log.at} />.
    </figcaption>
    <p>
      <a class="kiln-way" href={all}>
        All {number.format(log.kept)} readings as CSV
      </a>
    </p>
    <details>
      <summary>The readings in a table</summary>
      <Wide label="The readings as a table">
        <table class="figures">
          <caption>What was read</caption>
          <thead>
            <tr>
              {["After", ...bothUnits().map((unit) => `°${unit}`)].map((head) => (
                <th scope="col">{head}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {logRows(log.drawn).map(({ hours, celsius }) => (
              <tr>
                <th scope="row">{hoursInWords(hours)}</th>
                {bothUnits().map((unit) => (
                  <td>
                    {celsius === undefined ? "not read" : Math.round(degreesIn(celsius, unit))}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </details>
  </figure>
);

const number = new Intl.NumberFormat("en-GB");

function counted({ received, kept, drawn }: Log): string {
  const came =
    received === kept
      ? `${number.format(received)} readings.`
      : `${number.format(received)} readings came and ${number.format(kept)} are kept: of a moment that was read twice, the last.`;
  return drawn.length < kept
    ? `${came} The drawing and the table have the lowest and the highest of each stretch.`
    : came;
}
