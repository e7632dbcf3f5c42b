import { boundSays, holds, inFigures, type Result } from "./result.ts";

/** A bench that ran: what it handed on, and whether it ended well. */
export type Ran = { name: string; results: Result[]; minutes: number; failed: boolean };

type About = {
  machine: string;
  /** Such as 2026-11-28. */
  day: string;
  sizes: "usual" | "full";
};

/** The page of results, as it stands in docs. */
export function benchmarksPage(ran: readonly Ran[], { machine, day, sizes }: About): string {
  const minutes = Math.round(ran.reduce((sum, each) => sum + each.minutes, 0));
  const how = sizes === "full" ? "npm run bench -- full" : "npm run bench";
  return `# Benchmarks

Each ratio is of two things that were measured in one run on one machine, by turns where time is what
is measured, so that it says about the same on another one. Milliseconds alone would not. What each
bench does is told at the top of its file in \`bench\`, and how to run one alone.

\`npm run bench -- full\` takes the sizes that the bounds are for, \`npm run bench\` smaller ones. Either
writes this page.

What visitors are sent is what the last visitor was sent, while nothing was put on record since and for
five seconds; rows without a bound tell what it takes to make a page anew, for who has signed in.

Measured on ${day} by \`${how}\` in ${minutes} minutes: ${machine}.

| bench | what | against what | size | ratio | bound | held |
|---|---|---|---|---|---|---|
${ran.flatMap(rowsOf).join("\n")}
`;
}

function rowsOf({ name, results, failed }: Ran): string[] {
  if (results.length === 0)
    return [
      row([name, failed ? "broke before it had a result" : "left out: there was no Postgres"]),
    ];
  return results.map((result) => {
    const { what, against, size, ratio } = result;
    const held = holds(result) ? (result.bound ? "yes" : "") : "**no**";
    return row([name, what, against, inWords(size), inFigures(ratio), boundSays(result), held]);
  });
}

const row = (cells: readonly string[]): string =>
  `| ${Array.from({ length: 7 }, (_, place) => cells[place] ?? "").join(" | ")} |`;

/** With the thousands of long numbers apart. */
const inWords = (size: string): string =>
  size.replace(/\d{4,}/g, (digits) => Number(digits).toLocaleString("en-GB"));
