/**
 * Letters of single strokes, so that a drawing has its words on a machine without any font. Points
 * are x,y on a grid 4 wide and 8 high, the baseline at 6; a space starts another stroke.
 */
const strokes: Readonly<Record<string, string>> = {
  a: "0,3 2,2 4,3 4,6|4,4 1,4 0,5 1,6 4,5",
  d: "4,0 4,6|4,3 2,2 0,3 0,5 2,6 4,5",
  e: "0,4 4,4 4,3 2,2 0,3 0,5 2,6 4,5",
  f: "4,0 2,0 1,1 1,6|0,2 3,2",
  h: "0,0 0,6|0,3 2,2 4,3 4,6",
  m: "0,6 0,2|0,3 1,2 2,3 2,6|2,3 3,2 4,3 4,6",
  n: "0,6 0,2|0,3 2,2 4,3 4,6",
  o: "2,2 4,3 4,5 2,6 0,5 0,3 2,2",
  r: "0,6 0,2|0,3 2,2 4,2",
  t: "1,0 1,5 2,6 4,6|0,2 3,2",
  w: "0,2 1,6 2,3 3,6 4,2",
  "0": "2,0 4,1 4,5 2,6 0,5 0,1 2,0",
  "1": "1,1 2,0 2,6|1,6 3,6",
  "2": "0,1 2,0 4,1 4,2 0,6 4,6",
  "3": "0,0 4,0 2,2 4,4 3,6 0,6",
  "4": "3,6 3,0 0,4 4,4",
  "5": "4,0 0,0 0,2 3,2 4,4 3,6 0,6",
  "6": "4,0 1,1 0,4 1,6 3,6 4,5 3,3 0,4",
  "7": "0,0 4,0 1,6",
  "8": "2,3 0,2 1,0 3,0 4,2 2,3 0,4 1,6 3,6 4,4 2,3",
  "9": "4,2 1,3 0,1 2,0 4,1 4,3 2,6",
  " ": "",
};

/** The path of some words from their left end, in the units of the drawing; `size` is a grid step. */
export function letterPath(words: string, { x, y, size }: { x: number; y: number; size: number }) {
  const drawn = [...words].flatMap((letter, place) => {
    const known = strokes[letter];
    if (known === undefined) throw new Error(`there is no stroke for “${letter}”`);
    const left = x + place * 6 * size;
    return known
      .split("|")
      .filter(Boolean)
      .map((stroke) => `M${stroke.split(" ").map((point) => pointAt(point, left, y, size))}`);
  });
  return drawn.join("");
}

function pointAt(point: string, left: number, top: number, size: number): string {
  const [across = 0, down = 0] = point.split(",").map(Number);
  return ` ${left + across * size} ${top + down * size}`;
}
