import { troubles } from "./care-types.ts";

type ReportButtonsProps = { bucketId: string; idempotencyKey: string };

/** One tap for whatever is wrong with a bucket. */
export const ReportButtons = ({ bucketId, idempotencyKey }: ReportButtonsProps) => (
  <form method="post" action={`/buckets/${bucketId}/reports`} class="report-buttons screen-only">
    <h2>Is something wrong with it?</h2>
    <p>One tap tells the managers. A contaminated bucket is on hold at once.</p>
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <p class="report-taps">
      {troubles.map((trouble) => (
        <button type="submit" class="quiet" name="trouble" value={trouble}>
          {troubleWords[trouble]}
        </button>
      ))}
    </p>
    <p>
      <a href={`/buckets/${bucketId}/reports`}>Say more, or see what was reported</a>
    </p>
  </form>
);

export const troubleWords = {
  contaminated: "Contaminated",
  lumpy: "Lumpy",
  thin: "Thin",
  "wrong colour": "Wrong colour",
  "no label": "No label",
} as const;
