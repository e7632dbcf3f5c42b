import { type Facts, type Standing, standingOf } from "./standing.ts";

/** All that is on record about a layered pair and bears on what it counts as. */
export type PairFacts = Pick<
  Facts,
  "judgements" | "looked" | "failedTests" | "gaps" | "approvalMonths"
> & {
  /** What has happened to either glaze that no approval of the two together bears, in sentences. */
  against: readonly string[];
};

/** What is said of a pair that nobody judged. */
export const unreviewedPair =
  "Nobody has reviewed this pair. Until somebody does it is decorative only.";

/**
 * What a layered pair counts as, derived from what is on record of the pair, as for a revision. What
 * either glaze counts as alone says nothing here; that one of them is withdrawn, or is another powder
 * now, ends an approval. A reviewer's objection stands until the same reviewer says otherwise.
 */
export function pairStandingOf(facts: PairFacts, now: Date): Standing {
  const { against, ...known } = facts;
  const objecting = facts.judgements.filter(({ verdict, own }) => verdict === "object" && !own);
  const standing = standingOf(
    {
      ...known,
      withdrawn: null,
      safetyWithdrawals: [],
      objections: objecting.map(() => "this pair"),
      moved: against,
    },
    now,
  );
  return standing.is === "draft" ? { ...standing, because: [unreviewedPair] } : standing;
}
