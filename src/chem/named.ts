/** Names asked about are few and come back often; past this many the answers are forgotten. */
const mostKept = 2000;

/**
 * What a rule recognises a material's name by: `words` as whole words in any letter case, unless
 * they are part of what `meansElse` matches ("lead-free" does not name lead). Both are patterns.
 */
export type NameTest<Id> = {
  readonly id: Id;
  readonly words: readonly string[];
  readonly meansElse?: readonly string[] | undefined;
};

/**
 * Which of some tests a material's name passes. Answers are kept, since a shelf's names are asked
 * about again and again.
 */
export function namesPass<Id>(tests: readonly NameTest<Id>[]): (name: string) => ReadonlySet<Id> {
  const patterns = tests.map(({ id, words, meansElse }) => ({
    id,
    named: wholeWords(words, "iu"),
    other: meansElse && wholeWords(meansElse, "giu"),
  }));
  const kept = new Map<string, ReadonlySet<Id>>();
  return (name) => {
    const known = kept.get(name);
    if (known) return known;
    const passed = patterns.filter(
      ({ named, other }) => named.test(name) && (!other || named.test(name.replace(other, " "))),
    );
    const answer = new Set(passed.map(({ id }) => id));
    if (kept.size >= mostKept) kept.clear();
    kept.set(name, answer);
    return answer;
  };
}

const wholeWords = (words: readonly string[], flags: string): RegExp =>
  new RegExp(`(?<!\\p{L})(?:${words.join("|")})(?!\\p{L})`, flags);
