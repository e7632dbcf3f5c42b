/** A colour as the tiles have theirs: CIE L*, a* and b* under D50. */
export type LabTriple = readonly [lightness: number, a: number, b: number];

/**
 * Plain colours to look for, by the words that people use at the shelf. The figures are our own:
 * round ones in the middle of what a fired glaze of that name looks like, for finding what is near
 * and for nothing else. They measure no glaze and belong to no chart.
 */
export const plainColours = {
  white: [92, 0, 3],
  cream: [86, 2, 18],
  yellow: [78, 5, 65],
  amber: [58, 22, 55],
  brown: [34, 16, 22],
  red: [40, 52, 32],
  pink: [74, 26, 6],
  green: [50, -32, 24],
  turquoise: [64, -30, -14],
  blue: [36, 4, -44],
  violet: [38, 32, -34],
  grey: [56, 0, 0],
  black: [14, 0, 0],
} as const satisfies Record<string, LabTriple>;

export type PlainColour = keyof typeof plainColours;

export const isPlainColour = (word: string): word is PlainColour =>
  Object.hasOwn(plainColours, word);
