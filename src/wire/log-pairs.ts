import type { LogPage } from "./log-page.ts";

const start = /\s*\[\s*/y;
const pair =
  /\[\s*(-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?)\s*,\s*(-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?)\s*\]/y;
const otherPair = /\[[^[\]]{0,200}\]|null|"[^"]{0,200}"|[\w.+-]{1,200}/y;
const end = /\]\s*/y;
const between = /\s*([,\]])\s*/y;

/**
 * Reads `[[minutes, celsius], …]` from JSON without making a list of a million lists of it. A pair
 * that is none is a fault of its place; what is no JSON of a list ends the reading.
 */
export function readPairs(page: LogPage, text: string): void {
  let [at, place] = [0, 0];
  const next = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at;
    const found = pattern.exec(text);
    if (found) at = pattern.lastIndex;
    return found;
  };
  const name = () => `Reading ${place + 1}`;
  /** @returns whether the list goes on. */
  const takeOne = (): boolean => {
    const read = next(pair);
    if (read) page.take(name(), String(place), Number(read[1]), Number(read[2]));
    else page.refuse(name(), String(place), next(otherPair) ? sayPair : sayPairs);
    const mark = next(between);
    if (!mark) page.refuse(name(), String(place), sayPairs);
    place++;
    return mark?.[1] === ",";
  };
  if (!next(start)) page.refuse("The body", "", sayPairs);
  else if (!next(end)) {
    while (takeOne());
    if (at < text.length) page.refuse("The end", "", sayPairs);
  }
}

const sayPair = "A reading is [minutes, temperature], both numbers, such as [615, 1222].";
const sayPairs = "JSON of a list of readings is asked for: [[615, 1222], [616, 1221.5]].";
