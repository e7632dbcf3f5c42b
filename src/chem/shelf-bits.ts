/** A set of up to 62 powders by their places: 31 in each word, so that both stay small integers. */
export type Bits = { readonly low: number; readonly high: number };

export const noBits: Bits = { low: 0, high: 0 };

export const bit = (at: number): Bits =>
  at < 31 ? { low: 1 << at, high: 0 } : { low: 0, high: 1 << (at - 31) };

export const bitsOf = (places: Iterable<number>): Bits => {
  let [low, high] = [0, 0];
  for (const at of places) {
    if (at < 31) low |= 1 << at;
    else high |= 1 << (at - 31);
  }
  return { low, high };
};

export const has = (bits: Bits, at: number): boolean =>
  ((at < 31 ? bits.low >> at : bits.high >> (at - 31)) & 1) === 1;

export const union = (a: Bits, b: Bits): Bits => ({ low: a.low | b.low, high: a.high | b.high });

export const without = (a: Bits, b: Bits): Bits => ({
  low: a.low & ~b.low,
  high: a.high & ~b.high,
});

export const meet = (a: Bits, b: Bits): boolean => ((a.low & b.low) | (a.high & b.high)) !== 0;

export const isIn = (part: Bits, whole: Bits): boolean =>
  ((part.low & ~whole.low) | (part.high & ~whole.high)) === 0;

export const count = ({ low, high }: Bits): number => ones(low) + ones(high);

export function placesOf({ low, high }: Bits): number[] {
  const places: number[] = [];
  for (let rest = low; rest !== 0; rest &= rest - 1) places.push(31 - Math.clz32(rest & -rest));
  for (let rest = high; rest !== 0; rest &= rest - 1) places.push(62 - Math.clz32(rest & -rest));
  return places;
}

function ones(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return (((fours + (fours >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}
