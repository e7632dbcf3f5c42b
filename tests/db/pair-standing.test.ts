import { describe, expect, it } from "vitest";
import { type PairFacts, pairStandingOf, unreviewedPair } from "../../src/db/pair-standing.ts";
import type { Judgement } from "../../src/db/standing.ts";

const now = new Date("2026-09-01T10:00:00Z");
const at = new Date("2026-08-01T10:00:00Z");

const said = (more: Partial<Judgement> = {}): Judgement => ({
  id: "a",
  verdict: "approve",
  for: "decorative",
  at,
  own: false,
  approvedBefore: false,
  ...more,
});
const facts = (more: Partial<PairFacts> = {}): PairFacts => ({
  judgements: [],
  looked: false,
  failedTests: [],
  gaps: [],
  approvalMonths: null,
  against: [],
  ...more,
});
const functional = said({ for: "functional" });
const gap = { code: "acid", says: "No acid test was passed on a tile that counts." };
const gone = "Haar is withdrawn.";

describe("what a layered pair counts as", () => {
  it.each<[string, PairFacts, string, string | null, RegExp]>([
    ["nobody judged it", facts(), "draft", null, /decorative only/],
    ["nobody judged it and a glaze is gone", facts({ against: [gone] }), "draft", null, /Nobody/],
    ["a remark", facts({ looked: true }), "in review", null, /No reviewer has approved it/],
    [
      "an objection",
      facts({ judgements: [said({ verdict: "object" })] }),
      "in review",
      null,
      /on this pair is open/,
    ],
    [
      "an approval",
      facts({ judgements: [said()] }),
      "approved",
      "decorative",
      /as decorative only/,
    ],
    [
      "a decorative one with gaps",
      facts({ judgements: [said()], gaps: [gap] }),
      "approved",
      "decorative",
      /2026-08-01/,
    ],
    [
      "a functional one",
      facts({ judgements: [functional] }),
      "approved",
      "functional",
      /for functional ware/,
    ],
    [
      "a functional one whose evidence went",
      facts({ judgements: [functional], gaps: [gap] }),
      "needs another look",
      "functional",
      /No acid test/,
    ],
    [
      "a glaze withdrawn",
      facts({ judgements: [functional], against: [gone] }),
      "needs another look",
      "functional",
      /Haar is withdrawn/,
    ],
    [
      "a decorative one and a glaze withdrawn",
      facts({ judgements: [said()], against: [gone] }),
      "needs another look",
      "decorative",
      /Haar/,
    ],
    [
      "one who approves and one who objects",
      facts({ judgements: [functional, said({ id: "b", verdict: "object" })] }),
      "needs another look",
      "functional",
      /is open/,
    ],
    [
      "the approver took it back",
      facts({ judgements: [said({ verdict: "object", approvedBefore: true })] }),
      "needs another look",
      null,
      /took that back/,
    ],
    [
      "a test that failed later",
      facts({ judgements: [said()], failedTests: [{ kind: "acid", at: now }] }),
      "needs another look",
      "decorative",
      /failed/,
    ],
    [
      "an approval of one's own",
      facts({ judgements: [said({ own: true })] }),
      "in review",
      null,
      /does not count/,
    ],
    [
      "an objection of one's own",
      facts({ judgements: [said({ own: true, verdict: "object" })] }),
      "in review",
      null,
      /No reviewer/,
    ],
    [
      "an approval past its time",
      facts({ judgements: [said()], approvalMonths: 1 }),
      "needs another look",
      "decorative",
      /ended on/,
    ],
  ])("%s", (_, given, is, use, because) => {
    const standing = pairStandingOf(given, now);
    expect([standing.is, standing.for]).toEqual([is, use]);
    expect(standing.because.join(" ")).toMatch(because);
  });

  it("says of a pair that nobody judged what it may be used for", () => {
    expect(pairStandingOf(facts(), now).because).toEqual([unreviewedPair]);
  });
});
