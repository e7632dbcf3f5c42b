/** Minutes since any moment, and the temperature then in °C. */
export type Reading = readonly [minutes: number, celsius: number];

/** Readings as two columns of one length: a million of them take no million pairs. */
export type Columns = { minutes: ArrayLike<number>; celsius: ArrayLike<number> };

/**
 * Readings fit to work with. `dropped` were left out as spikes; `reordered` tells that they did
 * not come in order of time. `doubled` names a minute with two temperatures, of which nobody can
 * tell the right one.
 */
export type Cleaned =
  | { kind: "readings"; readings: Columns; dropped: number; reordered: boolean }
  | { kind: "doubled"; minutes: number; celsius: readonly [number, number] };

/**
 * Puts readings in order of time, counts what stands twice once, and drops spikes.
 *
 * A spike stands more than 20 °C above both its neighbours or more than 20 °C below both (common
 * practice, no source). Where the log is so coarse that the kiln itself climbs more than 20 °C from
 * one reading to the next, a reading within 20 °C of where that climb leads is the kiln's and stays.
 * The first and the last reading have one neighbour and stay.
 *
 * Worked number: of 1000, 1001, 1082, 1003 °C, a minute apart, the 1082 is dropped.
 */
export function cleaned(given: readonly Reading[]): Cleaned {
  const sorted = given.toSorted(([a], [b]) => a - b);
  const inOrder: Reading[] = [];
  for (const reading of sorted) {
    const before = inOrder.at(-1);
    if (before?.[0] !== reading[0]) inOrder.push(reading);
    else if (before[1] !== reading[1]) {
      return { kind: "doubled", minutes: reading[0], celsius: [before[1], reading[1]] };
    }
  }
  const reordered = given.some(([minutes], at) => minutes < (given[at - 1]?.[0] ?? minutes));
  const columns = {
    minutes: inOrder.map(([minutes]) => minutes),
    celsius: inOrder.map(([, celsius]) => celsius),
  };
  return { kind: "readings", ...withoutSpikes(columns), reordered };
}

/** Drops spikes, as `cleaned` does, from readings that are in order of time without doubles. */
export function withoutSpikes(given: Columns): { readings: Columns; dropped: number } {
  const { length } = given.minutes;
  let dropped = 0;
  for (let at = 0; at < length; at++) if (isSpike(given, at)) dropped++;
  if (dropped === 0) return { readings: given, dropped };
  const minutes = new Float64Array(length - dropped);
  const celsius = new Float64Array(length - dropped);
  let kept = 0;
  for (let at = 0; at < length; at++) {
    if (isSpike(given, at)) continue;
    minutes[kept] = given.minutes[at] as number;
    celsius[kept] = given.celsius[at] as number;
    kept++;
  }
  return { readings: { minutes, celsius }, dropped };
}

const spike = 20;

function isSpike({ minutes, celsius }: Columns, at: number): boolean {
  const [before, here, after] = [celsius[at - 1], celsius[at], celsius[at + 1]];
  if (before === undefined || here === undefined || after === undefined) return false;
  const [up, down] = [here - before, here - after];
  if (Math.min(Math.abs(up), Math.abs(down)) <= spike || up > 0 !== down > 0) return false;
  const earlier = celsius[at - 2];
  if (earlier === undefined || before <= earlier) return true;
  const took = (place: number) => (minutes[place] as number) - (minutes[place - 1] as number);
  const pace = (before - earlier) / took(at - 1);
  return Math.abs(up - pace * took(at)) > spike;
}
