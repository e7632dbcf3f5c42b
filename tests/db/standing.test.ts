import { describe, expect, it } from "vitest";
import { type Facts, type Judgement, standingOf } from "../../src/db/standing.ts";

const now = new Date("2026-11-01T09:00:00Z");
const approvedAt = new Date("2026-03-31T09:00:00Z");

const nothing: Facts = {
  withdrawn: null,
  safetyWithdrawals: [],
  judgements: [],
  looked: false,
  objections: [],
  moved: [],
  failedTests: [],
  gaps: [],
  approvalMonths: null,
};

const judged = (different: Partial<Judgement> = {}): Judgement => ({
  id: "review-1",
  verdict: "approve",
  for: "functional",
  at: approvedAt,
  own: false,
  approvedBefore: false,
  ...different,
});

const approved: Partial<Facts> = { judgements: [judged()] };
const decorative: Partial<Facts> = { judgements: [judged({ for: "decorative" })] };
const gap = { code: "acid", says: "No acid test was passed on a tile that counts." };

describe("a revision's standing", () => {
  it.each<[string, Partial<Facts>, string, RegExp]>([
    ["nothing on record", {}, "draft", /Nobody has reviewed/],
    ["a review asked for", { looked: true }, "in review", /No reviewer has approved/],
    [
      "an objection and nothing else",
      { objections: ["revision 2 of Slack Water"] },
      "in review",
      /objection on revision 2 of Slack Water is open/,
    ],
    [
      "an objecting review, closed since",
      { judgements: [judged({ verdict: "object" })] },
      "in review",
      /No reviewer has approved/,
    ],
    [
      "an approval by who wrote it",
      { judgements: [judged({ own: true })] },
      "in review",
      /does not count/,
    ],
    ["approved for functional ware", approved, "approved", /for functional ware on 2026-03-31/],
    ["approved as decorative", decorative, "approved", /as decorative only on 2026-03-31/],
    [
      "approved, and objected to",
      { ...approved, objections: ["revision 1 of Slack Water"] },
      "needs another look",
      /objection on revision 1/,
    ],
    [
      "approved, and the same glaze withdrawn for safety",
      { ...approved, safetyWithdrawals: ["Ebb Green"] },
      "needs another look",
      /Ebb Green, which is the same glaze so fired, was withdrawn for safety/,
    ],
    [
      "approved, and today's powders moved",
      { ...approved, moved: ["It moved."] },
      "needs another look",
      /It moved/,
    ],
    ["approved, and evidence gone", { ...approved, gaps: [gap] }, "needs another look", /acid/],
    [
      "approved as decorative, with nothing tested",
      { ...decorative, gaps: [gap] },
      "approved",
      /decorative/,
    ],
    [
      "approved as decorative, and a test failed since",
      { ...decorative, failedTests: [{ kind: "acid", at: new Date("2026-04-01T00:00:00Z") }] },
      "needs another look",
      /failed after it was approved: acid/,
    ],
    [
      "approved as decorative after a test had failed",
      { ...decorative, failedTests: [{ kind: "acid", at: new Date("2026-03-01T00:00:00Z") }] },
      "approved",
      /decorative/,
    ],
    [
      "an approval that was taken back",
      { judgements: [judged({ verdict: "object", approvedBefore: true })] },
      "needs another look",
      /took that back/,
    ],
    [
      "one reviewer's approval taken back, another's standing",
      { judgements: [judged({ verdict: "object", approvedBefore: true }), judged({ id: "b" })] },
      "approved",
      /functional/,
    ],
    ["withdrawn, though approved", { ...approved, withdrawn: "Blisters." }, "withdrawn", /Blis/],
    [
      "approved for longer than the studio lets it hold",
      { ...approved, approvalMonths: 6 },
      "needs another look",
      /ended on 2026-09-30/,
    ],
    [
      "approved, not that long ago",
      { ...approved, approvalMonths: 8 },
      "approved",
      /until 2026-11-30/,
    ],
  ])("with %s", (_, facts, is, because) => {
    const standing = standingOf({ ...nothing, ...facts }, now);
    expect(standing.is).toBe(is);
    expect(standing.because.join(" ")).toMatch(because);
  });

  it("is for the most that was approved, and rests on those reviews alone", () => {
    const both = [judged({ id: "a", for: "decorative" }), judged({ id: "b" })];
    expect(standingOf({ ...nothing, judgements: both }, now)).toMatchObject({
      for: "functional",
      basis: ["b"],
    });
  });

  it("tells everything that speaks against it", () => {
    const facts = { ...nothing, ...approved, gaps: [gap], moved: ["It moved."], objections: ["x"] };
    expect(standingOf(facts, now).because).toHaveLength(3);
  });

  it("ends an approval at the moment that its time is up", () => {
    const facts = { ...nothing, ...approved, approvalMonths: 7 };
    const { validUntil } = standingOf(facts, now);
    expect(validUntil?.toISOString()).toBe("2026-10-31T09:00:00.000Z");
    const end = validUntil as Date;
    expect(standingOf(facts, new Date(end.getTime() - 1)).is).toBe("approved");
    expect(standingOf(facts, end).is).toBe("needs another look");
  });
});
