import type { Reading } from "./cone-readings.ts";

/**
 * The end of a firing. `rateCelsiusPerHour` is that of the last 100 °C before the peak;
 * `heldMinutes` what was spent near the peak beyond that climb; `endsNearPeak` that the readings
 * stop before the kiln has left it, so that a hold may have followed.
 */
export type Climb = {
  peakCelsius: number;
  rateCelsiusPerHour: number;
  heldMinutes: number;
  endsNearPeak: boolean;
};

const span = 100;
const near = 15;
const wobble = 5;

/**
 * Reads the end of a firing off readings in order of time without doubles (`cleaned`), straight
 * lines between them. Undefined where they never climb 100 °C to the peak.
 *
 * The peak is the highest reading at its first time; the rate is 100 °C over the time since the
 * kiln last stood at peak − 100 °C. Held is the time after the peak within 15 °C of it, and with it
 * what the last 5 °C took beyond the pace of the 95 °C before: a thermocouple that wobbles puts the
 * highest reading late in a hold.
 *
 * Worked number: 1100 °C at minute 0, 1200 at 100, 1200 at 115, 1000 at 215: peak 1200, 60 °C/h,
 * held 15 + 7.5 minutes, since 15 °C at 2 °C a minute take 7.5.
 */
export function climbOf(readings: readonly Reading[]): Climb | undefined {
  const peak = peakOf(readings);
  const [peakMinutes, peakCelsius] = readings[peak] ?? [0, 0];
  const since = (celsius: number) => lastAt(readings, peak, celsius);
  const [start, top] = [since(peakCelsius - span), since(peakCelsius - wobble)];
  if (start === undefined || top === undefined) return undefined;
  const ownPace = (wobble * (top - start)) / (span - wobble);
  const crawled = Math.max(0, peakMinutes - top - ownPace);
  return {
    peakCelsius,
    rateCelsiusPerHour: (60 * span) / (peakMinutes - start),
    heldMinutes: crawled + minutesOver(readings.slice(peak), peakCelsius - near),
    endsNearPeak: (readings.at(-1)?.[1] ?? 0) >= peakCelsius - near,
  };
}

function peakOf(readings: readonly Reading[]): number {
  let peak = 0;
  for (let at = 1; at < readings.length; at++) {
    if ((readings[at]?.[1] ?? 0) > (readings[peak]?.[1] ?? 0)) peak = at;
  }
  return peak;
}

/** The minute, before the reading `end`, at which the kiln last stood at a temperature. */
function lastAt(readings: readonly Reading[], end: number, celsius: number): number | undefined {
  for (let at = end; at > 0; at--) {
    const [before, after] = [readings[at - 1], readings[at]];
    if (before && after && before[1] <= celsius) return crossing(before, after, celsius);
  }
  return undefined;
}

/** Minutes that straight lines through the readings spend at or over a temperature. */
function minutesOver(readings: readonly Reading[], celsius: number): number {
  let minutes = 0;
  for (let at = 1; at < readings.length; at++) {
    const [before, after] = [readings[at - 1], readings[at]];
    if (!before || !after) continue;
    const from = before[1] >= celsius ? before[0] : undefined;
    const to = after[1] >= celsius ? after[0] : undefined;
    if (from === undefined && to === undefined) continue;
    const between = from === undefined || to === undefined;
    const middle = between ? crossing(before, after, celsius) : 0;
    minutes += (to ?? middle) - (from ?? middle);
  }
  return minutes;
}

function crossing(before: Reading, after: Reading, celsius: number): number {
  const share = (celsius - before[1]) / (after[1] - before[1]);
  return before[0] + share * (after[0] - before[0]);
}
