import { Hono } from "hono";
import { z } from "zod";
import { type GivenPairReview, listPairReviews, reviewPair } from "../db/pair-reviews.ts";
import { created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { findPairSheet, findThePair, pairSheet } from "./pair-sheet.ts";

export const pairReviews = new Hono<Env>();

const reviewBody = z.strictObject({
  verdict: z.enum(["approve", "object", "remark"]),
  /** What it is approved for; decorative only where nothing is said. */
  for: z.enum(["functional", "decorative"]).default("decorative"),
  reasons: text(4000),
  idempotencyKey,
});

pairReviews.post(
  "/pairs/:id/reviews",
  described({ says: "Review a layered pair", body: reviewBody, status: 201 }),
  memberRequired,
  async (c) => {
    const pair = await findThePair(c);
    if (!pair) return notFound(c);
    if (memberOf(c).role === "member") return notAllowed(c, reviewersOnly);
    const read = await readBody(c, reviewBody);
    const { typed } = read;
    const again = async (faults: readonly Fault[]) =>
      pairSheet(c, pair, await findPairSheet(c, pair), {
        faults,
        typed: {
          verdict: typedText(typed, "verdict"),
          for: typedText(typed, "for"),
          reasons: typedText(typed, "reasons"),
        },
      });
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));

    const { verdict, for: use, reasons } = read.value;
    const given = await reviewPair(c.var.db, { ...actOf(c), pair, verdict, for: use, reasons });
    switch (given.kind) {
      case "given": {
        const all = await listPairReviews(c.var.db, { pairId: pair.id });
        const review = all.find(({ id }) => id === given.id);
        return created(c, `/pairs/${pair.id}`, review);
      }
      case "own-content":
        return notAllowed(c, ownContent);
      default: {
        const faults = faultsOf(given);
        return faulty(c, { faults }, await again(faults));
      }
    }
  },
);

const reviewersOnly =
  "Reviewers and managers review. Put a note on either recipe instead; one that objects stands in the way of its approval.";

const ownContent =
  "You wrote one of the two glazes, or the first revision that says the same, so your review would not count. Ask another reviewer.";

const faultsOf = (refused: Extract<GivenPairReview, { kind: "against" | "missing" }>): Fault[] =>
  refused.kind === "against"
    ? refused.against.map((says) => ({ path: "verdict", says }))
    : refused.gaps.map(({ says }) => ({ path: "for", says }));
