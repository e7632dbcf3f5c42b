/** Minutes since any moment, and the temperature then in °C. */
export type Reading = readonly [minutes: number, celsius: number];

/**
 * Readings fit to work with. `dropped` were left out as spikes; `reordered` tells that they did
 * not come in order of time. `doubled` names a minute with two temperatures, of which nobody can
 * tell the right one.
 */
export type Cleaned =
  | { kind: "readings"; readings: readonly Reading[]; dropped: number; reordered: boolean }
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
  const readings = inOrder.filter((_, at) => !isSpike(inOrder, at));
  const reordered = given.some(([minutes], at) => minutes < (given[at - 1]?.[0] ?? minutes));
  return { kind: "readings", readings, dropped: inOrder.length - readings.length, reordered };
}

const spike = 20;

function isSpike(readings: readonly Reading[], at: number): boolean {
  const [earlier, before, here, after] = [at - 2, at - 1, at, at + 1].map((place) =>
    place < 0 ? undefined : readings[place],
  );
  if (!before || !here || !after) return false;
  const [up, down] = [here[1] - before[1], here[1] - after[1]];
  if (Math.min(Math.abs(up), Math.abs(down)) <= spike || up > 0 !== down > 0) return false;
  if (!earlier || before[1] <= earlier[1]) return true;
  const pace = (before[1] - earlier[1]) / (before[0] - earlier[0]);
  return Math.abs(up - pace * (here[0] - before[0])) > spike;
}
