import type { Child } from "hono/jsx";

const size = { width: 340, height: 180, left: 44, right: 12, top: 12, bottom: 34 };
const across = size.width - size.left - size.right;
const up = size.height - size.top - size.bottom;

/** Where a moment and a temperature stand in the frame of a ramp. */
export type RampScale = {
  x: (hours: number) => number;
  y: (celsius: number) => number;
  hours: readonly number[];
  celsius: readonly number[];
};

/** A scale that holds so many hours and so high a temperature, with round figures at its axes. */
export function rampScale(longest: number, hottest: number): RampScale {
  const [hours, celsius] = [Math.max(longest, 1), Math.max(hottest, 200)];
  const [eachHours, eachCelsius] = [stepOf(hours, 8, hourSteps), stepOf(celsius, 5, celsiusSteps)];
  const most = Math.ceil(celsius / eachCelsius) * eachCelsius;
  return {
    x: (at) => tidy(size.left + (at / hours) * across),
    y: (at) => tidy(size.top + up - (at / most) * up),
    hours: ticks(hours, eachHours),
    celsius: ticks(most, eachCelsius),
  };
}

type RampFrameProps = { scale: RampScale; title: string; says: string; children?: Child };

/** The axes that a firing is drawn between: °C against hours. */
export const RampFrame = ({ scale, title, says, children }: RampFrameProps) => {
  const { x, y } = scale;
  return (
    <svg
      class="ramp"
      viewBox={`0 0 ${size.width} ${size.height}`}
      width={size.width}
      height={size.height}
      role="img"
    >
      <title>{title}</title>
      <desc>{says}</desc>
      {scale.celsius.map((at) => (
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
      {scale.hours.map((at) => (
        <>
          <line class="map-axis" x1={x(at)} x2={x(at)} y1={y(0)} y2={y(0) + 4} />
          <text class="map-tick" x={x(at)} y={y(0) + 17} text-anchor="middle">
            {at}
          </text>
        </>
      ))}
      <line class="map-axis" x1={size.left} x2={size.width - size.right} y1={y(0)} y2={y(0)} />
      {children}
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
const celsiusSteps = [50, 100, 200, 250, 300, 400];
