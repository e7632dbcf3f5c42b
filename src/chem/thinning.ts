import type { Reading } from "./cone-readings.ts";
import { type FiringLog, inShort } from "./firing-log.ts";

/** The most points of a log that a drawing is given. */
export const mostDrawn = 2000;

/**
 * A log with few enough points to draw, in order of time, in which no peak and no dip is lost: of
 * each of so many equal stretches of time the lowest and the highest reading are kept (the first
 * of equal ones), and with them the first and the last of all. A stretch without readings stays
 * empty, so a gap stays one. A log that is short enough is kept whole.
 *
 * Worked number: 10 readings to at most 6 points are 2 stretches of 2 points, and the ends.
 */
export function thinned({ minutes, celsius }: FiringLog, most = mostDrawn): Reading[] {
  const { length } = minutes;
  const reading = (at: number): Reading => [
    inShort(minutes[at] as number),
    inShort(celsius[at] as number),
  ];
  if (length <= most) return Array.from({ length }, (_, at) => reading(at));
  const stretches = Math.max(1, Math.floor((most - 2) / 2));
  const [first, last] = [minutes[0] as number, minutes[length - 1] as number];
  const stretchOf = (at: number) =>
    Math.min(
      stretches - 1,
      Math.floor((((minutes[at] as number) - first) / (last - first)) * stretches),
    );
  const kept = [0];
  const keep = (at: number) => {
    if (at > (kept.at(-1) ?? 0)) kept.push(at);
  };
  for (let from = 0; from < length; ) {
    const stretch = stretchOf(from);
    let [lowest, highest, at] = [from, from, from + 1];
    for (; at < length && stretchOf(at) === stretch; at++) {
      if ((celsius[at] as number) < (celsius[lowest] as number)) lowest = at;
      if ((celsius[at] as number) > (celsius[highest] as number)) highest = at;
    }
    keep(Math.min(lowest, highest));
    keep(Math.max(lowest, highest));
    from = at;
  }
  keep(length - 1);
  return kept.map(reading);
}
