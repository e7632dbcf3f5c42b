import { Choice, type Fault, faultAt, TextArea } from "../parts/field.tsx";

export type ShownReviewable = {
  gaps: readonly { says: string }[];
  moved: readonly string[];
  own: boolean;
  lookedAt: {
    findings: readonly { rule: string; level: string; says: string }[];
    tiles: readonly string[];
    tests: readonly string[];
  };
};

export type ReviewFormProps = {
  recipe: { slug: string; name: string };
  revision: { number: number; use: "functional" | "decorative" };
  reviewable: ShownReviewable;
  typed: { verdict: string; for: string; reasons: string };
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** A reviewer's verdict, with what there is to look at before it and what functional still lacks. */
export const ReviewForm = (props: ReviewFormProps) => {
  const { recipe, revision, reviewable, typed, faults } = props;
  const { lookedAt, gaps, moved } = reviewable;
  return (
    <form method="post" action={`/recipes/${recipe.slug}/reviews`} class="review-form">
      <input type="hidden" name="idempotencyKey" value={props.idempotencyKey} />
      <input type="hidden" name="revision" value={revision.number} />
      <h3>Review revision {revision.number}</h3>
      <p>
        Before you judge: {counted(lookedAt.tiles.length, "tile")} and{" "}
        {counted(lookedAt.tests.length, "test")} of this melt are on record, and the screen says:
      </p>
      {lookedAt.findings.length === 0 ? (
        <p>Nothing. That is not a promise: the rules know few faults.</p>
      ) : (
        <ul>
          {lookedAt.findings.map(({ level, says }) => (
            <li>
              <strong>{level}</strong> {says}
            </li>
          ))}
        </ul>
      )}
      {moved.length > 0 ? (
        <p>
          It cannot be approved: with the powders in use now it has moved ({moved.join("; ")}).
          Publish it with today's powders and review that.
        </p>
      ) : null}
      <Choice
        label="Your verdict"
        name="verdict"
        value={typed.verdict || "remark"}
        fault={faultAt(faults, "verdict")}
        options={verdicts}
      />
      <Choice
        label="Approve it"
        name="for"
        value={typed.for || (gaps.length === 0 ? "functional" : "decorative")}
        fault={faultAt(faults, "for")}
        options={revision.use === "functional" ? uses : uses.slice(1)}
      />
      {gaps.length > 0 ? (
        <div class="gaps">
          <p>For functional ware it lacks:</p>
          <ul>
            {gaps.map(({ says }) => (
              <li>{says}</li>
            ))}
          </ul>
        </div>
      ) : null}
      <TextArea
        label="Reasons"
        name="reasons"
        value={typed.reasons}
        fault={faultAt(faults, "reasons")}
        hint="What you looked at, and what whoever wrote it can learn from."
        maxlength={4000}
        required
      />
      <button type="submit">Put it on record</button>
    </form>
  );
};

const counted = (count: number, what: string): string =>
  count === 1 ? `1 ${what}` : `${count} ${what}s`;

const verdicts = [
  { value: "approve", label: "approve" },
  { value: "object", label: "object: it stands in the way until it is closed" },
  { value: "remark", label: "remark" },
];

const uses = [
  { value: "functional", label: "for functional ware" },
  { value: "decorative", label: "as decorative only" },
];
