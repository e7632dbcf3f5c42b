import { When } from "../people/when.tsx";
import type { ShownBucket } from "./types.ts";

type RecallsProps = { bucket: Pick<ShownBucket, "id" | "recalls">; mayRecall: boolean };

/** The way to the recalls that a bucket is under, and to raise one for whoever may. */
export const Recalls = ({ bucket: { id, recalls }, mayRecall }: RecallsProps) => (
  <>
    {recalls.map((recall) => (
      <p>
        <a href={`/recalls/${recall.id}`}>
          {recall.of === "lot" ? "A lot in it was recalled" : "It was recalled"},{" "}
          <When at={recall.at} />: whom it reaches
        </a>
      </p>
    ))}
    {mayRecall && recalls.length === 0 ? (
      <p class="actions">
        <a class="button quiet" href={`/recalls/new?bucket=${id}`}>
          Recall this bucket
        </a>
      </p>
    ) : null}
  </>
);
