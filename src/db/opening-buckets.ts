import type { FoundBucket } from "./buckets.ts";
import type { Defect } from "./tiles.ts";

/** What no glaze may do that holds food. */
const unfit: readonly Defect[] = ["crazing", "shivering", "blistering", "underfired"];

type Opened = Pick<FoundBucket, "use" | "forTest" | "recalls" | "moved"> & {
  filling: Pick<FoundBucket["filling"], "mixed" | "mixing" | "proof">;
};

/**
 * What keeps a bucket from being opened to members, a sentence each; none where it may be: it was
 * mixed, a proof tile of what is in it came out, and what is in it is what was approved. A test
 * bucket is for trying things out and needs no proof.
 */
export function againstOpening({ use, forTest, recalls, moved, filling }: Opened): string[] {
  const { mixed, mixing, proof } = filling;
  const against = recalls.map(
    ({ why }) =>
      `It is recalled: close the recall first, or empty the bucket of a recalled lot. ${why}`,
  );
  if (!mixed)
    against.push("It is not mixed yet: no mix of it was finished since it was last emptied.");
  if (mixing) against.push("A mix of it is open: finish it or give it up first.");
  if (forTest) return against;
  if (mixed && !proof)
    against.push("No proof tile was put on record since powder last went in: fire one first.");
  const faults = use === "functional" ? unfit.filter((each) => proof?.defects.includes(each)) : [];
  if (faults.length > 0)
    against.push(
      `Its newest proof tile came out with ${faults.join(" and ")}: put it right first.`,
    );
  if (moved.length > 0)
    against.push(`What is in it is no longer what was approved: ${moved.join("; ")}.`);
  return against;
}
