import { Wide } from "../parts/wide.tsx";
import type { ShownResult } from "./types.ts";

/** The figures of a leach report as the laboratory printed them, each in its own unit. */
export const LeachResults = ({ results }: { results: readonly ShownResult[] }) => (
  <>
    <Wide label="Figures of the leach report">
      <table class="figures leach">
        <caption>Figures of the leach report, in its own units</caption>
        <thead>
          <tr>
            <th scope="col">Element</th>
            <th scope="col">Came out</th>
            <th scope="col">Specimen</th>
          </tr>
        </thead>
        <tbody>
          {results.map((result) => (
            <tr>
              <th scope="row">{result.element}</th>
              <td>
                {result.qualifier === "<" ? "< " : ""}
                {result.value.toFixed()} {result.unit}
                <span class="leach-says">{sayOf(result)}</span>
              </td>
              <td>{result.specimen || "not said"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
    <p>
      Limits change, and are a country's law: ask your laboratory which hold for the article, and
      whether these figures keep to them.
    </p>
  </>
);

/** What a figure says by itself. */
function sayOf({ element, qualifier, value, unit, detectionLimit }: ShownResult): string {
  const limit = `${(detectionLimit ?? value).toFixed()} ${unit}`;
  const below = qualifier === "<" ? `Below the method's limit of ${limit}.` : "";
  const detects =
    qualifier === "=" && detectionLimit
      ? `The method's limit is ${detectionLimit.toFixed()} ${unit}.`
      : "";
  const unlimited = hasPotteryLimits(element) ? "" : "No limit for pottery is held here.";
  return [below, detects, unlimited].filter(Boolean).join(" ");
}

/** Rules for pottery that touches food are for these two. */
const hasPotteryLimits = (element: string): boolean => element === "Pb" || element === "Cd";
