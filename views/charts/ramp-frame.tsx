import type { Child } from "hono/jsx";
import { type DegreeUnit, degreesIn } from "../../src/chem/degrees.ts";
import { degreeSign } from "../parts/degrees.ts";
import { pageReading } from "../parts/reading.ts";

const size = { width: 340, height: 180, left: 44, right: 12, top: 12, bottom: 34 };
const across = size.width - size.left - size.right;
const up = size.height - size.top - size.bottom;

/** Where a moment and a temperature stand in the frame of a ramp. */
export type RampScale = {
  x: (hours: number) => number;
  y: (celsius: number) => number;
  hours: readonly number[];
  /** The temperatures at the axis, in the reader's unit, and where each of them stands. */
  degrees: readonly { at: number; y: number }[];
};

/**
 * A scale that holds so many hours and so high a temperature, in °C, with round figures of the
 * reader's unit at its axes.
 */
export function rampScale(longest: number, hottest: number): RampScale {
  const unit = pageReading().temperature;
  const hours = Math.max(longest, 1);
  const highest = degreesIn(Math.max(hottest, 200), unit);
  const eachHours = stepOf(hours, 8, hourSteps);
  const eachDegrees = stepOf(highest, 5, degreeSteps[unit]);
  const most = Math.ceil(highest / eachDegrees) * eachDegrees;
  const heightOf = (at: number) => tidy(size.top + up - (at / most) * up);
  return {
    x: (at) => tidy(size.left + (at / hours) * across),
    y: (celsius) => heightOf(degreesIn(celsius, unit)),
    hours: ticks(hours, eachHours),
    degrees: ticks(most, eachDegrees).map((at) => ({ at, y: heightOf(at) })),
  };
}

type RampFrameProps = { scale: RampScale; title: string; says: string; children?: Child };

/** The axes that a firing is drawn between: temperature against hours. */
export const RampFrame = ({ scale, title, says, children }: RampFrameProps) => {
  const { x } = scale;
  const floor = size.top + up;
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
      {scale.degrees.map(({ at, y }) => (
        <>
          <line class="ramp-rule" x1={size.left} x2={size.width - size.right} y1={y} y2={y} />
          <text class="map-tick" x={size.left - 6} y={y + 4} text-anchor="end">
            {at}
          </text>
        </>
      ))}
      {scale.hours.map((at) => (
        <>
          <line class="map-axis" x1={x(at)} x2={x(at)} y1={floor} y2={floor + 4} />
          <text class="map-tick" x={x(at)} y={floor + 17} text-anchor="middle">
            {at}
          </text>
        </>
      ))}
      <line class="map-axis" x1={size.left} x2={size.width - size.right} y1={floor} y2={floor} />
      {children}
      <text class="map-tick" x={size.width - size.right} y={size.height - 3} text-anchor="end">
        {degreeSign()} against hours
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
const degreeSteps: Readonly<Record<DegreeUnit, readonly number[]>> = {
  C: [50, 100, 200, 250, 300, 400],
  F: [100, 200, 400, 500, 600, 800],
};
