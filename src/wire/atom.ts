export type AtomEntry = {
  /** A URN that stays the same for the same thing. */
  id: string;
  title: string;
  link: string;
  updated: Date;
  author: string;
};

export type AtomFeed = {
  id: string;
  title: string;
  author: string;
  /** Where the feed itself is. */
  self: string;
  /** The page that shows the same. */
  page: string;
  updated: Date;
  entries: readonly AtomEntry[];
};

/** A feed as RFC 4287 has it. Every text is escaped, and loses what XML 1.0 cannot hold. */
export const atomDocument = ({ id, title, author, self, page, updated, entries }: AtomFeed) =>
  [
    '<?xml version="1.0" encoding="utf-8"?>',
    '<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="en">',
    `  <id>${escaped(id)}</id>`,
    `  <title>${escaped(title)}</title>`,
    `  <updated>${updated.toISOString()}</updated>`,
    `  <author><name>${escaped(author)}</name></author>`,
    `  <link rel="self" type="application/atom+xml" href="${escaped(self)}"/>`,
    `  <link rel="alternate" type="text/html" href="${escaped(page)}"/>`,
    ...entries.flatMap(entryLines),
    "</feed>",
    "",
  ].join("\n");

const entryLines = ({ id, title, link, updated, author }: AtomEntry): string[] => [
  "  <entry>",
  `    <id>${escaped(id)}</id>`,
  `    <title>${escaped(title)}</title>`,
  `    <updated>${updated.toISOString()}</updated>`,
  `    <author><name>${escaped(author)}</name></author>`,
  `    <link rel="alternate" type="text/html" href="${escaped(link)}"/>`,
  `    <content type="text">${escaped(title)}</content>`,
  "  </entry>",
];

const marks: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
};

const escaped = (text: string): string =>
  text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, "")
    .replace(/[&<>"]/g, (mark) => marks[mark] ?? "");
