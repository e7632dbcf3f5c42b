/**
 * Numbers from 0 to below 1 that look random and are the same for the same seed, so that the demo
 * is the same every time. Source: Tommy Ettinger's mulberry32 (2017), in the public domain.
 */
export function mulberry32(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A seed for a text: FNV-1a, 32 bits. Source: Glenn Fowler, Landon Curt Noll, Kiem-Phong Vo, 1991. */
export function seedOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  return hash >>> 0;
}
