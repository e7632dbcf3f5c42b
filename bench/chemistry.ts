import { workOut } from "../src/chem/chemistry.ts";
import { fortyDigits } from "../tests/reference/forty-digits.ts";
import { eightLines } from "../tests/reference/shelf.ts";
import { handOn } from "./sheets/result.ts";

/**
 * How much faster the float64 chemistry is than a 40-digit run of the same definitions, in one
 * process, for a glaze of eight analysed lines: medians, both after warming up. Under 200 it fails.
 */
const least = 200;
const request = { lines: eightLines() };

const quick = medianMicroseconds(() => workOut(request), 20_000);
const exact = medianMicroseconds(() => fortyDigits(request), 60);
handOn(
  {
    ...{
      what: "chemistry in float64, times as fast",
      against: "40 digits of the same definitions",
    },
    ...{ size: "a glaze of 8 lines", ratio: exact / quick, bound: { least } },
  },
  `${quick.toFixed(1)} µs beside ${exact.toFixed(0)}`,
);

function medianMicroseconds(run: () => unknown, times: number): number {
  for (let warm = 0; warm < times / 4; warm++) run();
  const samples = new Float64Array(times);
  for (let at = 0; at < times; at++) {
    const start = performance.now();
    run();
    samples[at] = performance.now() - start;
  }
  return (samples.sort()[Math.floor(times / 2)] ?? 0) * 1000;
}
