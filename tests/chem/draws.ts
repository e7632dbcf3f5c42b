/** Mulberry32 (T. Ettinger, 2017, public domain; from memory): the same numbers from the same seed. */
export function mulberry32(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Normal numbers, mean 0 and standard deviation 1, by G. Marsaglia's polar method (1964). */
export function normalDraws(uniform: () => number): () => number {
  let spare: number | undefined;
  return () => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const [x, y] = [2 * uniform() - 1, 2 * uniform() - 1];
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const stretch = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * stretch;
      return x * stretch;
    }
  };
}
