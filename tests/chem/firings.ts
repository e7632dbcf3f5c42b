import type { Reading } from "../../src/chem/cone-estimate.ts";

/** A firing with a reading every `every` minutes: a steady climb, a hold, then cooling at 300 °C/h. */
export function firing({
  peak,
  rate,
  from = peak - 250,
  hold = 0,
  every = 1,
}: {
  peak: number;
  rate: number;
  from?: number;
  hold?: number;
  every?: number;
}): Reading[] {
  const climb = ((peak - from) / rate) * 60;
  const celsiusAt = (minute: number): number => {
    if (minute < climb) return from + (minute * rate) / 60;
    return minute <= climb + hold ? peak : peak - (minute - climb - hold) * 5;
  };
  const minutes = Array.from(
    { length: Math.ceil((climb + hold + 30) / every) },
    (_, at) => at * every,
  );
  const marks = [climb, climb + hold].filter((mark) => !minutes.includes(mark));
  return [...new Set([...minutes, ...marks])]
    .toSorted((a, b) => a - b)
    .map((minute) => [minute, celsiusAt(minute)]);
}
