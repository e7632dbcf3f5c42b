import type { Columns } from "./cone-readings.ts";

/** A firing's readings in order of time, no moment twice: minutes since its start, and °C. */
export type FiringLog = Columns & { minutes: Float32Array; celsius: Float32Array };

/** The most readings of one log: a day's of twelve a second. */
export const mostLogged = 1_000_000;

/** What no kiln and no thermocouple reads, in °C, and longer than any firing, in minutes. */
export const coldestCelsius = -50;
export const hottestCelsius = 1600;
export const longestMinutes = 2_000_000;

/** Takes readings one by one, in any order, up to `mostLogged` of them. */
export type LogBook = {
  /** False where the book is full and the reading was not taken. */
  add: (minutes: number, celsius: number) => boolean;
  count: () => number;
  /** What was taken, put in order. */
  log: () => FiringLog;
};

/** An empty log book. It grows by doubling, so that a short log takes little. */
export function openLogBook(): LogBook {
  let minutes = new Float32Array(1024);
  let celsius = new Float32Array(1024);
  let count = 0;
  return {
    add(when, heat) {
      if (count === mostLogged) return false;
      if (count === minutes.length) {
        minutes = grown(minutes);
        celsius = grown(celsius);
      }
      minutes[count] = when;
      celsius[count] = heat;
      count++;
      return true;
    },
    count: () => count,
    log: () =>
      inOrder({ minutes: minutes.subarray(0, count), celsius: celsius.subarray(0, count) }),
  };
}

function grown(column: Float32Array<ArrayBuffer>): Float32Array<ArrayBuffer> {
  const larger = new Float32Array(Math.min(column.length * 2, mostLogged));
  larger.set(column);
  return larger;
}

/**
 * Puts readings in order of time. Of a moment that was read twice the one that came last is kept.
 * Nothing is filled in where readings are missing.
 */
export function inOrder(given: FiringLog): FiringLog {
  if (isInOrder(given.minutes)) return given;
  const { length } = given.minutes;
  const order = Uint32Array.from({ length }, (_, at) => at);
  const minute = (place: number) => given.minutes[place] as number;
  order.sort((a, b) => minute(a) - minute(b) || a - b);
  const [minutes, celsius] = [new Float32Array(length), new Float32Array(length)];
  let kept = 0;
  for (const place of order) {
    if (kept > 0 && minutes[kept - 1] === minute(place)) kept--;
    minutes[kept] = minute(place);
    celsius[kept] = given.celsius[place] as number;
    kept++;
  }
  return { minutes: minutes.subarray(0, kept), celsius: celsius.subarray(0, kept) };
}

function isInOrder(minutes: Float32Array): boolean {
  for (let at = 1; at < minutes.length; at++) {
    if ((minutes[at] as number) <= (minutes[at - 1] as number)) return false;
  }
  return true;
}

/**
 * What a 32-bit float holds, in as few digits as tell it from its neighbours: the 7777.7 that was
 * typed, and not the 7777.7001953125 that is held.
 */
export function inShort(held: number): number {
  if (Number.isInteger(held)) return held;
  for (let digits = 6; digits < 9; digits++) {
    const short = Number(held.toPrecision(digits));
    if (Math.fround(short) === held) return short;
  }
  return Number(held.toPrecision(9));
}
