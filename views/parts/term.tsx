import type { Child } from "hono/jsx";

type TermProps = {
  children?: Child;
  means: string;
  /** Where the guide says more: a page, or a section of one. */
  guide: string;
  id?: string | undefined;
};

/**
 * A word of the trade, explained where it stands. A press on it opens the meaning, by finger,
 * mouse or keyboard and without script, and leads on to the guide; a browser too old for that shows
 * the meaning in the line.
 *
 * @param id of the meaning; made from its words where none is given.
 */
export const Term = ({ children, means, guide, id }: TermProps) => {
  const meaning = id ?? `means-${fingerprint(means)}`;
  return (
    <span class="term">
      <button type="button" class="term-word" popovertarget={meaning}>
        <dfn>{children}</dfn>
      </button>
      <span class="term-means" id={meaning} popover="auto">
        {means}{" "}
        <a class="term-more" href={`/guide/${guide}`}>
          More in the guide
        </a>
      </span>
    </span>
  );
};

// The same page must come out byte for byte the same each time, so the id is taken from the words.
const fingerprint = (words: string): string =>
  Array.from(words)
    .reduce((sum, letter) => (Math.imul(sum, 31) + (letter.codePointAt(0) ?? 0)) >>> 0, 7)
    .toString(36);
