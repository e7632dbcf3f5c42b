import type { FiringLog } from "../chem/firing-log.ts";
import { rampOf } from "../chem/programme.ts";
import type { DemoFiring } from "./kiln.ts";
import { mulberry32, seedOf } from "./random.ts";

/** What a kiln cools by in an hour at first, in °C, and down to what it is logged. */
const coolsBy = 320;
const loggedTo = 650;
const noise = 0.8;

/** How far behind its programme a kiln runs: a full one is slow. */
const [quickest, slowest] = [0.98, 0.93];

/**
 * What the kiln of a demo firing is made to have read, a reading a minute: its programme, a little
 * late and unsteady, and then its cooling. The same every time.
 */
export function demoReadings({ kiln, startedAt, programme }: DemoFiring): FiringLog {
  const random = mulberry32(seedOf(`${kiln} ${startedAt}`));
  const pace = slowest + random() * (quickest - slowest);
  const corners = rampOf(programme).map(({ hours, celsius }) => ({ hours: hours / pace, celsius }));
  const end = corners.at(-1) ?? { hours: 0, celsius: 0 };
  const celsiusAt = (hours: number): number => {
    if (hours >= end.hours) return end.celsius - (hours - end.hours) * coolsBy;
    const next = corners.findIndex((corner) => corner.hours > hours);
    const [from, to] = [corners[next - 1] ?? end, corners[next] ?? end];
    const share = (hours - from.hours) / (to.hours - from.hours);
    return from.celsius + share * (to.celsius - from.celsius);
  };
  const cooling = Math.max(0, end.celsius - loggedTo) / coolsBy;
  const length = Math.floor((end.hours + cooling) * 60) + 1;
  return {
    minutes: Float32Array.from({ length }, (_, minute) => minute),
    celsius: Float32Array.from({ length }, (_, minute) => {
      const read = celsiusAt(minute / 60) + (random() - 0.5) * noise;
      return Math.round(read * 10) / 10;
    }),
  };
}
