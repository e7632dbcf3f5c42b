import type { Use } from "../chem/chemistry.ts";
import type { Gap } from "../chem/evidence.ts";
import type { standings } from "./schema/index.ts";

export type StandingIs = (typeof standings)[number];

/** What a revision counts as. `for` is what it was approved for, `because` why, in words for the page. */
export type Standing = {
  is: StandingIs;
  for: Use | null;
  because: string[];
  /** When an approval ends by itself. */
  validUntil: Date | null;
  /** The reviews that an approval rests on, or rested on. */
  basis: string[];
};

/** What is said of a draft. */
export const unreviewed = "Nobody has reviewed this revision.";

/** A reviewer's newest verdict on what the revision says, approve or object. */
export type Judgement = {
  id: string;
  verdict: "approve" | "object";
  for: Use;
  at: Date;
  /** By somebody who wrote the revision, or the first one that says the same. */
  own: boolean;
  /** The same reviewer had approved it before. */
  approvedBefore: boolean;
};

/** All that is on record about one revision and bears on what it counts as. */
export type Facts = {
  /** Why its recipe is withdrawn, where it is. */
  withdrawn: string | null;
  /** Recipes with the same melt, cones and atmosphere that are withdrawn for safety. */
  safetyWithdrawals: readonly string[];
  judgements: readonly Judgement[];
  /** Somebody asked for a review of it, or a reviewer remarked on it. */
  looked: boolean;
  /** Where objections are open: "revision 2 of Slack Water". */
  objections: readonly string[];
  /** What today's powders move further than an approval bears, in words. */
  moved: readonly string[];
  /** Tests of the same melt, so fired, that failed, and when that came on record. */
  failedTests: readonly { kind: string; at: Date }[];
  /** What it lacks as functional ware. */
  gaps: readonly Gap[];
  /** How long the studio lets an approval hold; for ever where null. */
  approvalMonths: number | null;
};

/**
 * What a revision counts as, derived from what is on record and from nothing else.
 *
 * Withdrawn comes first. Approved is what a reviewer approved who did not write it, as long as nothing
 * speaks against it; what does is listed, all of it, and makes it need another look. What nobody has
 * approved is in review where somebody asked, judged or objected, and a draft otherwise.
 */
export function standingOf(facts: Facts, now: Date): Standing {
  const none = { for: null, validUntil: null, basis: [] };
  if (facts.withdrawn !== null) return { is: "withdrawn", because: [facts.withdrawn], ...none };

  const approvals = facts.judgements.filter(({ verdict, own }) => verdict === "approve" && !own);
  const takenBack = facts.judgements.filter(
    ({ verdict, own, approvedBefore }) => verdict === "object" && !own && approvedBefore,
  );
  if (approvals.length > 0) return ofApproved(facts, approvals, now);
  if (takenBack.length > 0) {
    const because = ["The reviewer who had approved it took that back.", ...open(facts)];
    return { is: "needs another look", because, ...none, basis: takenBack.map(({ id }) => id) };
  }
  return { ...ofUnapproved(facts), ...none };
}

function ofApproved(facts: Facts, approvals: readonly Judgement[], now: Date): Standing {
  const functional = approvals.some((approval) => approval.for === "functional");
  const use: Use = functional ? "functional" : "decorative";
  const counted = approvals.filter((approval) => approval.for === use);
  const last = new Date(Math.max(...counted.map(({ at }) => at.getTime())));
  const validUntil = facts.approvalMonths === null ? null : monthsAfter(last, facts.approvalMonths);
  const basis = counted.map(({ id }) => id);
  const against = [
    ...open(facts),
    ...facts.safetyWithdrawals.map(
      (recipe) => `${recipe}, which is the same glaze so fired, was withdrawn for safety.`,
    ),
    ...facts.moved,
    ...(functional ? facts.gaps.map(({ says }) => says) : []),
    ...facts.failedTests
      .filter((test) => !functional && test.at > last)
      .map(({ kind }) => `A test of the same glaze failed after it was approved: ${kind}.`),
    ...(validUntil && validUntil <= now ? [`Its approval ended on ${day(validUntil)}.`] : []),
  ];
  if (against.length > 0)
    return { is: "needs another look", for: use, because: against, validUntil, basis };
  const until = validUntil ? `, until ${day(validUntil)}` : "";
  const what = functional ? "for functional ware" : "as decorative only";
  const because = [`A reviewer approved it ${what} on ${day(last)}${until}.`];
  return { is: "approved", for: use, because, validUntil, basis };
}

function ofUnapproved(facts: Facts): { is: "draft" | "in review"; because: string[] } {
  const { judgements } = facts;
  const objections = open(facts);
  const owns = judgements.some(({ verdict, own }) => verdict === "approve" && own);
  const because = [
    ...objections,
    ...(owns
      ? ["Who approved it wrote it, or wrote what it is a copy of: that does not count."]
      : []),
  ];
  if (because.length === 0 && judgements.length === 0 && !facts.looked)
    return { is: "draft", because: [unreviewed] };
  if (because.length > 0) return { is: "in review", because };
  return { is: "in review", because: ["No reviewer has approved it yet."] };
}

const open = ({ objections }: Facts): string[] =>
  objections.map((where) => `An objection on ${where} is open.`);

/** The same day of the month so many months on, or the last day of that month. */
function monthsAfter(from: Date, months: number): Date {
  const later = new Date(from);
  later.setUTCMonth(from.getUTCMonth() + months);
  if (later.getUTCDate() !== from.getUTCDate()) later.setUTCDate(0);
  return later;
}

const day = (at: Date): string => at.toISOString().slice(0, 10);
