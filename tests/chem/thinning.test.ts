import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type FiringLog,
  inOrder,
  inShort,
  mostLogged,
  openLogBook,
} from "../../src/chem/firing-log.ts";
import { mostDrawn, thinned } from "../../src/chem/thinning.ts";

const logOf = (pairs: readonly (readonly [number, number])[]): FiringLog => ({
  minutes: Float32Array.from(pairs, ([minutes]) => minutes),
  celsius: Float32Array.from(pairs, ([, celsius]) => celsius),
});

const inSteps = (length: number, celsiusAt: (at: number) => number): FiringLog =>
  logOf(Array.from({ length }, (_, at) => [at, celsiusAt(at)] as const));

describe("a log that is thinned to be drawn", () => {
  const logs = fc
    .array(fc.tuple(fc.integer({ min: 0, max: 5000 }), fc.integer({ min: -50, max: 1600 })), {
      minLength: 1,
      maxLength: 400,
    })
    .map((pairs) => inOrder(logOf(pairs)));

  it("keeps its first, last, highest and lowest reading, in order, and none that was not there", () => {
    fc.assert(
      fc.property(logs, fc.integer({ min: 4, max: 60 }), (log, most) => {
        const drawn = thinned(log, most);
        const all = Array.from(log.minutes, (minutes, at) => [minutes, log.celsius[at] ?? 0]);
        expect(drawn.length).toBeLessThanOrEqual(most);
        expect(drawn.at(0)).toEqual(all.at(0));
        expect(drawn.at(-1)).toEqual(all.at(-1));
        const heats = (of: readonly (readonly number[])[]) => of.map(([, celsius]) => celsius ?? 0);
        expect(Math.max(...heats(drawn))).toBe(Math.max(...heats(all)));
        expect(Math.min(...heats(drawn))).toBe(Math.min(...heats(all)));
        const minutes = drawn.map(([minute]) => minute);
        expect(minutes).toEqual([...new Set(minutes)].sort((a, b) => a - b));
        const there = new Set(all.map(String));
        expect(drawn.filter((reading) => !there.has(String(reading)))).toEqual([]);
      }),
    );
  });

  it("loses no peak of a single reading among a million", () => {
    const log = inSteps(mostLogged, (at) => (at === 654_321 ? 1290 : 600 + (at % 7)));
    const drawn = thinned(log);
    expect(drawn.length).toBeLessThanOrEqual(mostDrawn);
    expect(drawn).toContainEqual([654_321, 1290]);
  });

  it("keeps a gap empty", () => {
    const log = logOf([
      ...Array.from({ length: 5000 }, (_, at) => [at, 20 + at / 10] as const),
      ...Array.from({ length: 5000 }, (_, at) => [at + 20_000, 900] as const),
    ]);
    const minutes = thinned(log).map(([minute]) => minute);
    expect(minutes.filter((minute) => minute > 4999 && minute < 20_000)).toEqual([]);
  });

  it("stays whole where it is short", () => {
    const log = inSteps(mostDrawn, (at) => at / 2);
    expect(thinned(log)).toHaveLength(mostDrawn);
  });
});

describe("a log book", () => {
  it("puts readings in order and keeps of a moment the one that came last", () => {
    const book = openLogBook();
    for (const [minutes, celsius] of [
      [3, 300],
      [1, 100],
      [2, 200],
      [1, 110],
      [3, 310],
    ] as const)
      book.add(minutes, celsius);
    const { minutes, celsius } = book.log();
    expect([...minutes]).toEqual([1, 2, 3]);
    expect([...celsius]).toEqual([110, 200, 310]);
    expect(book.count()).toBe(5);
  });

  it("takes a million readings and not one more", () => {
    const book = openLogBook();
    for (let at = 0; at < mostLogged; at++) book.add(at, 20);
    expect(book.add(mostLogged, 20)).toBe(false);
    expect(book.log().minutes).toHaveLength(mostLogged);
  });
});

it("gives back what was typed, and never another number than is held", () => {
  for (const typed of [0, 1.5, 7777.7, 1222.15, -12.34, 999.999])
    expect(inShort(Math.fround(typed))).toBe(typed);
  fc.assert(
    fc.property(fc.float({ min: -50, max: 1600, noNaN: true }), (held) => {
      expect(Math.fround(inShort(held))).toBe(held);
    }),
  );
});
