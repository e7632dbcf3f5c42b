import { Choice, type Fault, faultAt, TextArea } from "../parts/field.tsx";
import type { UseIs } from "../parts/standing.tsx";
import { DayOf } from "../tiles/day.tsx";
import type { ShownPair } from "./types.ts";

export type ShownPairReview = {
  id: string;
  verdict: "approve" | "object" | "remark";
  for: UseIs;
  reasons: string;
  by: { name: string };
  at: Date;
};

export type TypedReview = { verdict: string; for: string; reasons: string };

type PairReviewsProps = {
  pair: ShownPair;
  reviews: readonly ShownPairReview[];
  gaps: readonly { says: string }[];
  against: readonly string[];
  mayReview: boolean;
  wroteIt: boolean;
  typed?: TypedReview | undefined;
  faults: readonly Fault[];
  idempotencyKey: string;
};

const verdictWords = {
  approve: "approved it",
  object: "objected to it",
  remark: "remarked on it",
} as const;

const forWords: Readonly<Record<UseIs, string>> = {
  functional: " for functional ware",
  decorative: " as decorative only",
};

/** Who says so of a pair, what it still lacks, and the way to the next verdict. */
export const PairReviews = (props: PairReviewsProps) => (
  <section id="reviews">
    <h2>Who says so</h2>
    {props.reviews.length === 0 ? <p>No reviewer has said anything about this pair yet.</p> : null}
    <ol class="reviews">
      {props.reviews.map(({ verdict, for: use, reasons, by, at }) => (
        <li>
          <p>
            <strong>{by.name}</strong> {verdictWords[verdict]}
            {verdict === "approve" ? forWords[use] : ""}, <DayOf at={at} />
          </p>
          <p class="note-text">{reasons}</p>
        </li>
      ))}
    </ol>
    {props.gaps.length > 0 ? (
      <div class="gaps">
        <p>For functional ware it lacks:</p>
        <ul>
          {props.gaps.map(({ says }) => (
            <li>{says}</li>
          ))}
        </ul>
      </div>
    ) : null}
    {props.wroteIt ? <p>You wrote one of the two glazes: your review would not count.</p> : null}
    {props.mayReview ? <PairReviewForm {...props} /> : null}
  </section>
);

const PairReviewForm = ({
  pair,
  gaps,
  against,
  typed,
  faults,
  idempotencyKey,
}: PairReviewsProps) => (
  <details class="fold" open={faults.length > 0}>
    <summary>Review it</summary>
    <form method="post" action={`/pairs/${pair.id}/reviews`} class="review-form">
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      {against.length > 0 ? <p>It cannot be approved now: {against.join(" ")}</p> : null}
      <Choice
        label="Your verdict"
        name="verdict"
        value={typed?.verdict || "remark"}
        fault={faultAt(faults, "verdict")}
        options={[
          { value: "approve", label: "approve" },
          { value: "object", label: "object: it stands until you say otherwise" },
          { value: "remark", label: "remark" },
        ]}
      />
      <Choice
        label="Approve it"
        name="for"
        value={typed?.for || (gaps.length === 0 ? "functional" : "decorative")}
        fault={faultAt(faults, "for")}
        options={[
          { value: "functional", label: "for functional ware" },
          { value: "decorative", label: "as decorative only" },
        ]}
      />
      <TextArea
        label="Reasons"
        name="reasons"
        value={typed?.reasons}
        fault={faultAt(faults, "reasons")}
        hint="What you looked at, and what whoever lays them can learn from."
        maxlength={4000}
        required
      />
      <button type="submit">Put it on record</button>
    </form>
  </details>
);
