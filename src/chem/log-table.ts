import type { Reading } from "./cone-readings.ts";

/** A row of a log's table: a moment and what was read nearest to it, or nothing in a gap. */
export type LogRow = { hours: number; celsius: number | undefined };

const steps = [0.25, 0.5, 1, 2, 3, 4, 6, 12, 24, 48, 96];

/**
 * A log in so few rows that people read them, at even hours: the reading nearest to each, and none
 * where the nearest is further off than half a row. Worked example: ten hours in at most 24 rows
 * are rows half an hour apart.
 */
export function logRows(readings: readonly Reading[], most = 24): LogRow[] {
  const last = (readings.at(-1)?.[0] ?? 0) / 60;
  const step = steps.find((hours) => last / hours <= most) ?? Math.ceil(last / most);
  let near = 0;
  return Array.from({ length: Math.floor(last / step) + 1 }, (_, row) => {
    const hours = row * step;
    const off = (at: number) => Math.abs((readings[at]?.[0] ?? Number.NaN) - hours * 60);
    while (off(near + 1) <= off(near)) near++;
    return { hours, celsius: off(near) <= step * 30 ? readings[near]?.[1] : undefined };
  });
}

const shortestGap = 10;
const usualSteps = 8;

/**
 * The stretches of a log between its gaps. A gap is over 10 minutes and over 8 times the usual step
 * from one reading to the next (the median); nothing is known of what the kiln did in it.
 */
export function stretchesOf(readings: readonly Reading[]): Reading[][] {
  const taken = readings.slice(1).map(([minutes], at) => minutes - (readings[at]?.[0] ?? 0));
  const usual = taken.toSorted((a, b) => a - b)[Math.floor(taken.length / 2)] ?? 0;
  const longest = Math.max(shortestGap, usualSteps * usual);
  const stretches: Reading[][] = [];
  for (const [at, reading] of readings.entries()) {
    const stretch = stretches.at(-1);
    if (stretch && (taken[at - 1] ?? 0) <= longest) stretch.push(reading);
    else stretches.push([reading]);
  }
  return stretches;
}

/** The highest reading, at its first time. */
export const highestOf = (readings: readonly Reading[]): Reading | undefined =>
  readings.reduce<Reading | undefined>(
    (best, reading) => (best === undefined || reading[1] > best[1] ? reading : best),
    undefined,
  );
