import { type Moment, rampOf, roomCelsius, type Step } from "../../src/chem/programme.ts";
import { hoursInWords } from "../firings/firing-words.ts";

const size = { width: 340, height: 180, left: 44, right: 12, top: 12, bottom: 34 };
const across = size.width - size.left - size.right;
const up = size.height - size.top - size.bottom;

/** What a programme means the kiln to do: temperature against hours. The same stands in its table. */
export const FiringRamp = ({ programme }: { programme: readonly Step[] }) => {
  const ramp = rampOf(programme);
  const hours = Math.max(...ramp.map((moment) => moment.hours), 1);
  const celsius = Math.max(...ramp.map((moment) => moment.celsius), 200);
  const [eachHours, eachCelsius] = [stepOf(hours, 8, hourSteps), stepOf(celsius, 5, celsiusSteps)];
  const [mostHours, mostCelsius] = [hours, Math.ceil(celsius / eachCelsius) * eachCelsius];
  const x = (at: number) => tidy(size.left + (at / mostHours) * across);
  const y = (at: number) => tidy(size.top + up - (at / mostCelsius) * up);
  return (
    <svg
      class="ramp"
      viewBox={`0 0 ${size.width} ${size.height}`}
      width={size.width}
      height={size.height}
      role="img"
    >
      <title>The programme: temperature against hours</title>
      <desc>{rampWords(programme, ramp)}</desc>
      {ticks(mostCelsius, eachCelsius).map((at) => (
        <>
          <line
            class="ramp-rule"
            x1={size.left}
            x2={size.width - size.right}
            y1={y(at)}
            y2={y(at)}
          />
          <text class="map-tick" x={size.left - 6} y={y(at) + 4} text-anchor="end">
            {at}
          </text>
        </>
      ))}
      {ticks(mostHours, eachHours).map((at) => (
        <>
          <line class="map-axis" x1={x(at)} x2={x(at)} y1={y(0)} y2={y(0) + 4} />
          <text class="map-tick" x={x(at)} y={y(0) + 17} text-anchor="middle">
            {at}
          </text>
        </>
      ))}
      <line class="map-axis" x1={size.left} x2={size.width - size.right} y1={y(0)} y2={y(0)} />
      <polyline
        class="ramp-line"
        points={ramp.map((moment) => `${x(moment.hours)},${y(moment.celsius)}`).join(" ")}
      />
      <text class="map-tick" x={size.width - size.right} y={size.height - 3} text-anchor="end">
        °C against hours
      </text>
    </svg>
  );
};

const tidy = (place: number): number => Math.round(place * 100) / 100;

const ticks = (most: number, each: number): number[] =>
  Array.from({ length: Math.floor(most / each) + 1 }, (_, place) => place * each);

/** The first of some round steps that cuts a length into `pieces` or fewer. */
const stepOf = (length: number, pieces: number, steps: readonly number[]): number =>
  steps.find((step) => length / step <= pieces) ?? Math.ceil(length / pieces);

const hourSteps = [1, 2, 3, 4, 6, 12, 24, 48, 96];
const celsiusSteps = [50, 100, 200, 250, 300];

/** What the drawing shows, for whoever does not see it. */
function rampWords(programme: readonly Step[], ramp: readonly Moment[]): string {
  let from = roomCelsius;
  const steps = programme.map(({ celsiusPerHour, toCelsius, holdMinutes }) => {
    const way = toCelsius < from ? "down" : "up";
    from = toCelsius;
    const held = holdMinutes > 0 ? `, held for ${holdMinutes} minutes` : "";
    return `${celsiusPerHour} °C an hour ${way} to ${toCelsius} °C${held}`;
  });
  return `From ${roomCelsius} °C: ${steps.join("; ")}. ${hoursInWords(ramp.at(-1)?.hours ?? 0)} in all.`;
}
