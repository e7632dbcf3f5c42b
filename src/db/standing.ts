export type Standing = {
  is: "draft" | "withdrawn";
  /** Why, in words for the page. */
  because: string[];
};

/**
 * What a revision counts as, derived from what is on record and from nothing else.
 *
 * A revision that nobody has reviewed is a draft, whatever it says of itself.
 */
export function standingOf({ withdrawn }: { withdrawn: { why: string } | null }): Standing {
  if (withdrawn) return { is: "withdrawn", because: [withdrawn.why] };
  return { is: "draft", because: ["Nobody has reviewed this revision."] };
}
