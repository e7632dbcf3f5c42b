/** A bug that somebody might make, and who has to notice it. */
export type Mutant = {
  name: string;
  /** Which file it is in; `before` is there exactly once, and becomes `after`. */
  file: string;
  before: string;
  after: string;
  /** What goes wrong with it, in a sentence. */
  breaks: string;
  /** The test files of which at least one has to fail. */
  tests: readonly [string, ...string[]];
};

/** How often a text is in another. */
export const timesIn = (text: string, part: string): number => text.split(part).length - 1;

/** The file's text with the bug in it. @throws where the place is not there exactly once. */
export function withBug(text: string, { name, file, before, after }: Mutant): string {
  const times = timesIn(text, before);
  if (times !== 1) throw new Error(`${name}: its text is ${times} times in ${file}, not once.`);
  return text.replace(before, () => after);
}
