import type { BlendKind } from "./blends.ts";

/** The letter that a blend's tiles carry, by its kind; few strokes, so that it can be scratched. */
const letters: Readonly<Record<BlendKind, string>> = {
  ladder: "L",
  line: "B",
  triaxial: "T",
  grid: "G",
};

/** What to scratch into the tile of a blend's point, by itself: L1, T12. */
export const tileMark = (kind: BlendKind, n: number): string => `${letters[kind]}${n}`;

/** The alphabet without I, O and Q, which read as 1 and 0 where they are scratched. */
const scratched = "ABCDEFGHJKLMNPRSTUVWXYZ";

/**
 * The letters that tell a studio's trials apart in one kiln, by how many trials there were before.
 * Two of them for the first 529 trials, one more for the 23 times as many after each end.
 *
 * Worked numbers: the first is AA, the 24th BA, the 530th AAA.
 */
export function trialCode(before: number): string {
  const base = scratched.length;
  let [length, rest] = [2, before];
  while (rest >= base ** length) {
    rest -= base ** length;
    length += 1;
  }
  return Array.from({ length }, (_, at) => {
    const digit = Math.floor(rest / base ** (length - 1 - at)) % base;
    return scratched[digit] ?? "";
  }).join("");
}

/** What to scratch into the tile of a trial's point: AA1, BC12. */
export const trialMark = ({ code }: { code: string }, n: number): string => `${code}${n}`;
