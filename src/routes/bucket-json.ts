import type { FoundBucket } from "../db/buckets.ts";
import type { Fault } from "../wire/problems.tsx";

/** What is to be said of a bucket before anything else; none where nothing speaks against it. */
export function cautionsOf({ standing, changes: [last], reports }: FoundBucket): string[] {
  const cautions: string[] = [];
  if (last?.is === "hold") cautions.push("This bucket is on hold: do not use it.");
  switch (standing.is) {
    case "approved":
      break;
    case "needs another look":
      cautions.push(
        "This bucket's revision needs another look: do not use it for food until it is settled.",
      );
      break;
    case "withdrawn":
      cautions.push("This bucket's recipe was withdrawn: do not use it.");
      break;
    case "draft":
    case "in review":
      cautions.push("Nobody has approved this bucket's revision: do not use it for food.");
      break;
  }
  for (const { trouble, by, at } of reports)
    cautions.push(
      `${by} reported on ${at.toISOString().slice(0, 10)}: ${trouble}. Nobody has said yet what was done.`,
    );
  return cautions;
}

/** What is said to whoever measures, adds to or reports a bucket that is empty. */
export const emptyFault = (path: string): Fault => ({
  path,
  says: "It is empty. A manager opens it again once something is in it.",
});

/** That the recipe has moved on while the bucket follows what it was mixed from. */
export const newerThan = ({ number, head }: FoundBucket): string | null =>
  head > number ? `Revision ${head} is newer; this bucket follows revision ${number}.` : null;

export const stateOf = ({ changes: [last] }: FoundBucket) => last ?? null;

/** A bucket as its list and its own address tell it. */
export const bucketJson = (bucket: FoundBucket) => ({
  id: bucket.id,
  name: bucket.name,
  litres: bucket.litres.toFixed(),
  recipe: bucket.recipe,
  revision: bucket.number,
  head: bucket.head,
  use: bucket.use,
  is: stateOf(bucket)?.is ?? "open",
  cautions: cautionsOf(bucket),
  newer: newerThan(bucket),
  standing: {
    is: bucket.standing.is,
    for: bucket.standing.for,
    because: bucket.standing.because,
    validUntil: bucket.standing.validUntil,
  },
  addedBy: bucket.addedBy,
  addedAt: bucket.addedAt,
  changes: bucket.changes,
  reports: bucket.reports,
});

/** What the pages of buckets show of one. */
export const shownBucket = (bucket: FoundBucket) => ({
  ...bucket,
  is: stateOf(bucket)?.is ?? ("open" as const),
  cautions: cautionsOf(bucket),
  newer: newerThan(bucket),
});
