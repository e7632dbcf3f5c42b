/** A step of a kiln's programme: so many degrees an hour up or down to a temperature, then held. */
export type Step = { celsiusPerHour: number; toCelsius: number; holdMinutes: number };

/** Where a programme means the kiln to be, so many hours after its start. */
export type Moment = { hours: number; celsius: number };

/** What a kiln is taken to stand at before it is switched on. */
export const roomCelsius = 20;

/**
 * The corners of the line that a programme draws, from a kiln at room temperature (20 °C). What the
 * kiln did is another matter. Worked number: 150 °C an hour to 620 °C and 30 minutes held is 4 hours
 * of climbing, then 620 °C until 4.5 hours.
 */
export function rampOf(programme: readonly Step[]): Moment[] {
  const moments: Moment[] = [{ hours: 0, celsius: roomCelsius }];
  let [hours, celsius] = [0, roomCelsius];
  for (const { celsiusPerHour, toCelsius, holdMinutes } of programme) {
    hours += Math.abs(toCelsius - celsius) / celsiusPerHour;
    celsius = toCelsius;
    moments.push({ hours, celsius });
    if (holdMinutes === 0) continue;
    hours += holdMinutes / 60;
    moments.push({ hours, celsius });
  }
  return moments;
}
