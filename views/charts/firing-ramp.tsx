import { type Moment, rampOf, roomCelsius, type Step } from "../../src/chem/programme.ts";
import { hoursInWords } from "../firings/firing-words.ts";
import { degrees, degreesApart } from "../parts/degrees.ts";
import { RampFrame, rampScale } from "./ramp-frame.tsx";

/** What a programme means the kiln to do: temperature against hours. The same stands in its table. */
export const FiringRamp = ({ programme }: { programme: readonly Step[] }) => {
  const ramp = rampOf(programme);
  const scale = rampScale(longestOf(ramp), hottestOf(ramp));
  return (
    <RampFrame
      scale={scale}
      title="The programme: temperature against hours"
      says={rampWords(programme)}
    >
      <polyline
        class="ramp-line"
        points={ramp.map(({ hours, celsius }) => `${scale.x(hours)},${scale.y(celsius)}`).join(" ")}
      />
    </RampFrame>
  );
};

export const longestOf = (ramp: readonly Moment[]): number =>
  Math.max(...ramp.map(({ hours }) => hours));

export const hottestOf = (ramp: readonly Moment[]): number =>
  Math.max(...ramp.map(({ celsius }) => celsius));

/** What the drawing of a programme shows, for whoever does not see it. */
export function rampWords(programme: readonly Step[]): string {
  let from = roomCelsius;
  const steps = programme.map(({ celsiusPerHour, toCelsius, holdMinutes }) => {
    const way = toCelsius < from ? "down" : "up";
    from = toCelsius;
    const held = holdMinutes > 0 ? `, held for ${holdMinutes} minutes` : "";
    return `${degreesApart(celsiusPerHour)} an hour ${way} to ${degrees(toCelsius)}${held}`;
  });
  const hours = rampOf(programme).at(-1)?.hours ?? 0;
  return `From ${degrees(roomCelsius)}: ${steps.join("; ")}. ${hoursInWords(hours)} in all.`;
}
