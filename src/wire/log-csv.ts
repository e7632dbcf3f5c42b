import { type FiringLog, inShort } from "../chem/firing-log.ts";

const linesAtOnce = 10_000;

/** A log as CSV, written while it is sent. */
export function csvOf({ minutes, celsius }: FiringLog): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  let next = 0;
  return new ReadableStream({
    start: (to) => to.enqueue(encoder.encode("minutes,celsius\n")),
    pull(to) {
      let text = "";
      const end = Math.min(next + linesAtOnce, minutes.length);
      for (; next < end; next++) {
        text += `${inShort(minutes[next] as number)},${inShort(celsius[next] as number)}\n`;
      }
      to.enqueue(encoder.encode(text));
      if (next === minutes.length) to.close();
    },
  });
}
