import type { DraftLine } from "../db/drafts.ts";
import type { Replacing } from "../db/replacing.ts";
import type { FoundRevision } from "../db/revisions.ts";

/** What the schema lets a revision say of itself. */
const longest = 500;

/** What a restated revision says of itself: which powder ended and what stands in for it. */
export function messageOf(
  { material, goesOn }: Replacing,
  head: FoundRevision,
  lines: readonly DraftLine[],
  more: string,
): string {
  const had = new Set(head.lines.map((line) => line.material.id));
  const names = lines
    .filter((line) => !had.has(line.material.id))
    .map((line) => line.material.name);
  const { source, measuredOn } = goesOn?.inUse ?? {};
  const why = goesOn
    ? `Restated for ${material.name} by another analysis: ${measuredOn ? `${source}, ${measuredOn}` : source}.`
    : `Restated without ${material.name}, which ended.`;
  const standIn = names.length > 0 ? listed(names) : "More of its other powders";
  const stands = `${standIn} ${names.length === 1 ? "stands" : "stand"} in.`;
  const says = goesOn && names.length === 0 ? why : `${why} ${stands}`;
  return [says, more.replace(/\s+/g, " ")].filter(Boolean).join(" ").slice(0, longest);
}

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
