import type { Reading } from "../../src/chem/cone-readings.ts";
import { highestOf, stretchesOf } from "../../src/chem/log-table.ts";
import { rampOf, type Step } from "../../src/chem/programme.ts";
import { hoursInWords } from "../firings/firing-words.ts";
import { degreesInBoth } from "../parts/degrees.ts";
import { hottestOf, longestOf, rampWords } from "./firing-ramp.tsx";
import { RampFrame, rampScale } from "./ramp-frame.tsx";

type FiringLogProps = { drawn: readonly Reading[]; programme: readonly Step[] };

/** What a kiln did, drawn over what it was set to do. Nothing is drawn where nothing was read. */
export const FiringLog = ({ drawn, programme }: FiringLogProps) => {
  const ramp = programme.length === 0 ? [] : rampOf(programme);
  const stretches = stretchesOf(drawn);
  const scale = rampScale(
    Math.max((drawn.at(-1)?.[0] ?? 0) / 60, longestOf(ramp)),
    Math.max(highestOf(drawn)?.[1] ?? 0, hottestOf(ramp)),
  );
  const at = (hours: number, celsius: number) =>
    `${scale.x(hours)},${scale.y(Math.max(0, celsius))}`;
  return (
    <RampFrame
      scale={scale}
      title="The firing: temperature against hours"
      says={logWords(drawn, stretches.length - 1, programme)}
    >
      {ramp.length === 0 ? null : (
        <polyline
          class="ramp-set"
          points={ramp.map(({ hours, celsius }) => at(hours, celsius)).join(" ")}
        />
      )}
      {stretches.map((stretch) => (
        <polyline
          class="ramp-line"
          points={stretch.map(([minutes, celsius]) => at(minutes / 60, celsius)).join(" ")}
        />
      ))}
    </RampFrame>
  );
};

/** What the drawing shows, for whoever does not see it. */
function logWords(drawn: readonly Reading[], gaps: number, programme: readonly Step[]): string {
  const told = (reading: Reading | undefined) =>
    reading ? `${degreesInBoth(reading[1])} at ${hoursInWords(reading[0] / 60)}` : "";
  const without =
    gaps === 0
      ? ""
      : gaps === 1
        ? " In one gap nothing was read."
        : ` In ${gaps} gaps nothing was read.`;
  const set = programme.length === 0 ? "" : ` It was set so. ${rampWords(programme)}`;
  return `It began with ${told(drawn[0])}, came to ${told(highestOf(drawn))} at the highest, and the readings end with ${told(drawn.at(-1))}.${without}${set}`;
}
