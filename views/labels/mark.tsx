/** What stands on a bucket: the one thing that whoever dips has to know of it. */
export type MarkIs = "functional" | "decorative" | "test" | "do not use" | "empty";

export const markWords: Readonly<Record<MarkIs, string>> = {
  functional: "Functional",
  decorative: "Decorative only",
  test: "Test bucket",
  "do not use": "Do not use",
  empty: "Empty",
};

/** What each mark rules out, which never stands without it. */
export const markMeans: Readonly<Record<MarkIs, string>> = {
  functional: "By itself, as it was tested and fired. Decorative only where it overlaps another.",
  decorative:
    "Nowhere food, drink, lips or cutlery touch: not inside, not on the rim or within 20 mm of it, not on spoon rests, lidded jars or pet bowls.",
  test: "Decorative only, not for food, not for members' pots until approved.",
  "do not use": "Ask first. The code tells why.",
  empty: "There is nothing in it to use.",
};

/** The same where there is little room. */
export const markMeansInShort: Readonly<Record<MarkIs, string>> = {
  functional: "By itself; not where it overlaps another.",
  decorative: "Nowhere food, drink, lips or cutlery touch.",
  test: "Not for food, not for members' pots.",
  "do not use": "Ask first. The code tells why.",
  empty: "There is nothing in it to use.",
};

const shapes: Readonly<Record<MarkIs, string>> = {
  functional: "functional",
  decorative: "decorative",
  test: "test",
  "do not use": "stop",
  empty: "empty",
};

/** A mark as words in a frame; the frame's shape differs for each, so that it needs no colour. */
export const Mark = ({ mark }: { mark: MarkIs }) => (
  <strong class={`mark mark-${shapes[mark]}`}>{markWords[mark]}</strong>
);
