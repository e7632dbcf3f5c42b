import { Standing, type StandingIs, type UseIs } from "../parts/standing.tsx";
import { ReviewForm, type ShownReviewable } from "./form.tsx";

export type ShownReview = {
  id: string;
  revision: number;
  verdict: "approve" | "object" | "remark";
  for: UseIs;
  reasons: string;
  lookedAt: { tiles: readonly string[]; tests: readonly string[] };
  by: { id: string; name: string };
  at: Date;
};

export type ShownStanding = {
  is: StandingIs;
  for: UseIs | null;
  because: readonly string[];
};

type ReviewsProps = {
  recipe: { slug: string; name: string; mayRevise: boolean };
  revision: { number: number; use: UseIs };
  standing: ShownStanding;
  reviews: readonly ShownReview[];
  reviewers: readonly { id: string; name: string; wroteEarlier: boolean }[];
  /** What the reader has to look at, where they may review; null where they may not. */
  reviewable: ShownReviewable | null;
  idempotencyKey: string;
};

/** Who says so: the verdicts on record, and the way to the next one. */
export const Reviews = (props: ReviewsProps) => {
  const { recipe, revision, standing, reviews, reviewers, reviewable } = props;
  const wroteEarlier = new Set(
    reviewers.filter((person) => person.wroteEarlier).map(({ id }) => id),
  );
  return (
    <section id="reviews">
      <h2>Who says so</h2>
      {reviews.length === 0 ? <p>No reviewer has said anything about this recipe yet.</p> : null}
      <ol class="reviews">
        {reviews.map((review) => (
          <li id={`review-${review.id}`}>
            <p>
              <strong>{review.by.name}</strong>
              {wroteEarlier.has(review.by.id) ? ", who wrote an earlier revision," : ""}{" "}
              {verdictWords(review)} revision{" "}
              <a href={`/recipes/${recipe.slug}/revisions/${review.revision}`}>{review.revision}</a>
              {review.verdict === "approve" ? ` ${forWords[review.for]}` : ""} on{" "}
              <time datetime={review.at.toISOString()}>{review.at.toISOString().slice(0, 10)}</time>
              , having {review.lookedAt.tiles.length} of its tiles and{" "}
              {review.lookedAt.tests.length} of its tests before them.
            </p>
            <p class="note-text">{review.reasons}</p>
          </li>
        ))}
      </ol>
      {standing.is === "approved" || standing.is === "withdrawn" ? null : (
        <WhoCan reviewers={reviewers} />
      )}
      {recipe.mayRevise && (standing.is === "draft" || standing.is === "needs another look") ? (
        <form method="post" action={`/recipes/${recipe.slug}/review-requests`}>
          <input type="hidden" name="idempotencyKey" value={`${props.idempotencyKey}-ask`} />
          <input type="hidden" name="revision" value={revision.number} />
          <button type="submit">Ask the reviewers to look at revision {revision.number}</button>
        </form>
      ) : null}
      {reviewable && !reviewable.own && standing.is !== "withdrawn" ? (
        <details class="fold">
          <summary>Review it</summary>
          <ReviewForm
            recipe={recipe}
            revision={revision}
            reviewable={reviewable}
            typed={{ verdict: "", for: "", reasons: "" }}
            faults={[]}
            idempotencyKey={`${props.idempotencyKey}-review`}
          />
        </details>
      ) : null}
      {reviewable?.own ? (
        <p>
          You wrote this, or the first revision that says the same: your review would not count.
        </p>
      ) : null}
    </section>
  );
};

const verdictWords = ({ verdict }: ShownReview): string =>
  ({ approve: "approved", object: "objected to", remark: "remarked on" })[verdict];

const forWords: Readonly<Record<UseIs, string>> = {
  functional: "for functional ware",
  decorative: "as decorative only",
};

const WhoCan = ({ reviewers }: { reviewers: ReviewsProps["reviewers"] }) =>
  reviewers.length === 0 ? (
    <p>
      Nobody in the studio may review this: whoever could has written it. A manager can make
      somebody else a reviewer on the page of people; then they can look at it.
    </p>
  ) : (
    <p>
      Who may review it:{" "}
      {reviewers
        .map(({ name, wroteEarlier }) =>
          wroteEarlier ? `${name} (wrote an earlier revision)` : name,
        )
        .join(", ")}
      .
    </p>
  );

/** A revision's standing with all its reasons. */
export const StandingWithReasons = ({ standing }: { standing: ShownStanding }) => (
  <div class="standing-reasons">
    <p>
      <Standing
        is={standing.is}
        for={standing.is === "approved" ? (standing.for ?? undefined) : undefined}
      />
    </p>
    <ul>
      {standing.because.map((because) => (
        <li>{because}</li>
      ))}
    </ul>
  </div>
);
