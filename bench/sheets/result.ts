/** At most so many times the baseline, or at least. */
type Bound = { most: number } | { least: number };

/** What a bench found out: one number beside another of the same run. */
export type Result = {
  what: string;
  /** What it is held against. */
  against: string;
  /** How many of what. */
  size: string;
  ratio: number;
  /** Where there is none, the ratio is told and held to nothing. */
  bound?: Bound;
};

/**
 * Prints a result, and hands it on where `npm run bench` started this process; a bound that does not
 * hold becomes the process's exit status.
 *
 * @param measured the numbers that the ratio is of, with their units, for whoever reads along.
 * @returns whether the bound held.
 */
export function handOn(result: Result, measured: string): boolean {
  const { what, against, size, ratio } = result;
  const held = holds(result);
  console.log(
    `${what} against ${against}, ${size}: ${measured}; ${inFigures(ratio)} (${boundSays(result)})${held ? "" : " NOT HELD"}`,
  );
  process.send?.(result);
  if (!held) process.exitCode = 1;
  return held;
}

/** Whether the ratio is within its bound; what is no number never is. */
export function holds({ ratio, bound }: Result): boolean {
  if (!bound) return true;
  return "most" in bound ? ratio <= bound.most : ratio >= bound.least;
}

export function boundSays({ bound }: Result): string {
  if (!bound) return "no bound";
  return "most" in bound ? `at most ${bound.most}` : `at least ${bound.least}`;
}

/** With three figures, as one reads a ratio. */
export const inFigures = (ratio: number): string =>
  ratio >= 100 ? ratio.toFixed(0) : String(Number(ratio.toPrecision(3)));
