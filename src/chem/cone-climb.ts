import type { Columns } from "./cone-readings.ts";

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
export function climbOf(readings: Columns): Climb | undefined {
  const { minutes, celsius } = readings;
  const peak = peakOf(celsius);
  const [peakMinutes, peakCelsius] = [minutes[peak] ?? 0, celsius[peak] ?? 0];
  const since = (level: number) => lastAt(readings, peak, level);
  const [start, top] = [since(peakCelsius - span), since(peakCelsius - wobble)];
  if (start === undefined || top === undefined) return undefined;
  const ownPace = (wobble * (top - start)) / (span - wobble);
  const crawled = Math.max(0, peakMinutes - top - ownPace);
  return {
    peakCelsius,
    rateCelsiusPerHour: (60 * span) / (peakMinutes - start),
    heldMinutes: crawled + minutesOver(readings, peak, peakCelsius - near),
    endsNearPeak: (celsius[celsius.length - 1] ?? 0) >= peakCelsius - near,
  };
}

function peakOf(celsius: ArrayLike<number>): number {
  let peak = 0;
  for (let at = 1; at < celsius.length; at++) {
    if ((celsius[at] as number) > (celsius[peak] as number)) peak = at;
  }
  return peak;
}

/** The minute, before the reading `end`, at which the kiln last stood at a temperature. */
function lastAt(readings: Columns, end: number, level: number): number | undefined {
  for (let at = end; at > 0; at--) {
    if ((readings.celsius[at - 1] as number) <= level) return crossing(readings, at, level);
  }
  return undefined;
}

/** Minutes that straight lines through the readings after `from` spend at or over a temperature. */
function minutesOver(readings: Columns, from: number, level: number): number {
  const { minutes, celsius } = readings;
  let over = 0;
  for (let at = from + 1; at < minutes.length; at++) {
    const [wasOver, isOver] = [
      (celsius[at - 1] as number) >= level,
      (celsius[at] as number) >= level,
    ];
    if (!wasOver && !isOver) continue;
    const middle = wasOver && isOver ? 0 : crossing(readings, at, level);
    const until = isOver ? (minutes[at] as number) : middle;
    over += until - (wasOver ? (minutes[at - 1] as number) : middle);
  }
  return over;
}

/** When the straight line to a reading from the one before it passes a temperature. */
function crossing({ minutes, celsius }: Columns, at: number, level: number): number {
  const [before, after] = [minutes[at - 1] as number, minutes[at] as number];
  const [from, to] = [celsius[at - 1] as number, celsius[at] as number];
  return before + ((level - from) / (to - from)) * (after - before);
}
