export type StoryLine = {
  subject: string;
  subjectId: string;
  kind: string;
  detail: Record<string, unknown>;
  /** It happened to the recipe itself, and not to a fork of it. */
  own: boolean;
  number: number | null;
  other: { slug: string; name: string; number: number } | null;
};

/** What happened, in words that follow a name, and where it is to be seen. */
export type StoryWords = { says: string; href: string };

/** One line of a recipe's history. `address` is the recipe's own. */
export function storyWords(line: StoryLine, address: string): StoryWords {
  const { kind, subjectId, detail, number, other } = line;
  const revision = number === null ? "the recipe" : `revision ${number}`;
  const there = number === null ? address : `${address}/revisions/${number}`;
  const use = detail.for === "functional" ? "for functional ware" : "as decorative only";
  switch (kind) {
    case "published":
      return { says: "published it", href: there };
    case "revised":
      return { says: `published ${revision}`, href: there };
    case "forked":
      return forkWords(line, address);
    case "review asked for":
      return { says: `asked for a review of ${revision}, ${use}`, href: there };
    case "approved":
      return { says: `approved ${revision} ${use}`, href: there };
    case "objected to":
      return { says: `reviewed ${revision} and objected`, href: there };
    case "remarked on":
      return { says: `reviewed ${revision}, with a remark`, href: there };
    case "noted":
      return { says: `raised an objection to ${revision}`, href: `/notes/${detail.note}` };
    case "objection closed":
      return { says: `closed an objection to ${revision}`, href: `/notes/${detail.note}` };
    case "objection overruled":
      return { says: `overruled an objection to ${revision}`, href: `/notes/${detail.note}` };
    case "standing changed":
      return { says: standingWords(revision, detail), href: there };
    case "withdrawn":
      return {
        says: detail.forSafety === true ? "withdrew it for safety" : "withdrew it",
        href: address,
      };
    case "import withdrawn":
      return { says: "withdrew it with the import that brought it", href: address };
    case "put forward again":
      return { says: "put it forward again", href: address };
    case "offered":
      return { says: "offered a fork's changes back to it", href: `/offers/${subjectId}` };
    case "offer accepted":
      return { says: `took an offer, now ${revision}`, href: `/offers/${subjectId}` };
    case "offer declined":
      return { says: "turned an offer down", href: `/offers/${subjectId}` };
    case "tile added":
      return {
        says: `put a tile of ${revision} on record, cone ${String(detail.cone)}`,
        href: `/tiles/${subjectId}`,
      };
    case "tile withdrawn":
      return { says: `withdrew a tile of ${revision}`, href: `/tiles/${subjectId}` };
    case "photo added":
      return { says: `hung a picture on a tile of ${revision}`, href: `/tiles/${subjectId}` };
    case "colour added":
      return { says: `read the colour of a tile of ${revision}`, href: `/tiles/${subjectId}` };
    case "photo removed":
      return {
        says: `had a picture removed from a tile of ${revision}`,
        href: `/tiles/${subjectId}`,
      };
    case "test added":
      return {
        says: `put a test of ${revision} on record: ${String(detail.kind)}, ${String(detail.outcome)}`,
        href: `${there}#tests`,
      };
    case "test withdrawn":
      return { says: `withdrew a test of ${revision}`, href: `${there}#tests` };
    case "report added":
      return {
        says: `put a laboratory's report with a test of ${revision}`,
        href: `/tests/${subjectId}`,
      };
    case "test photo added":
      return { says: `hung a picture beside a test of ${revision}`, href: `/tests/${subjectId}` };
    case "test photo removed":
      return {
        says: `had a picture of a test of ${revision} removed`,
        href: `/tests/${subjectId}`,
      };
    default:
      return { says: `${kind} (${line.subject}${other ? `, ${other.name}` : ""})`, href: there };
  }
}

function forkWords({ own, other }: StoryLine, address: string): StoryWords {
  if (!own && other)
    return {
      says: `forked revision ${other.number} into ${other.name}`,
      href: `/recipes/${other.slug}`,
    };
  // Where it came from may be a recipe that the reader may not know of.
  if (!other) return { says: "forked it from another recipe", href: `${address}/revisions/1` };
  return {
    says: `forked it from ${other.name}, revision ${other.number}`,
    href: `/recipes/${other.slug}/revisions/${other.number}`,
  };
}

function standingWords(revision: string, { before, after }: Record<string, unknown>): string {
  if (before === "approved")
    return `found that ${revision} is no longer approved: it is “${String(after)}” now`;
  return `found that ${revision} counts as “${String(after)}” now`;
}
