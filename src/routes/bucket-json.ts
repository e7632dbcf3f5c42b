import type { FoundBucket } from "../db/buckets.ts";
import type { Fault } from "../wire/problems.tsx";

/** What is to be said of a bucket before anything else; none where nothing speaks against it. */
export const cautionsOf = ({ cautions }: FoundBucket): string[] => cautions;

/** How a revision stands, after "it". */
export const standsAs: Readonly<Record<FoundBucket["standing"]["is"], string>> = {
  draft: "is a draft",
  "in review": "is in review",
  approved: "is approved",
  "needs another look": "needs another look",
  withdrawn: "was withdrawn",
};

/** What is said to whoever measures, adds to or reports a bucket that is empty. */
export const emptyFault = (path: string): Fault => ({
  path,
  says: "It is empty until a mix of it is finished.",
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
  is: bucket.is,
  forTest: bucket.forTest,
  mayUse: bucket.mayUse,
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
  recalls: bucket.recalls,
});

/** What the pages of buckets show of one. */
export const shownBucket = (bucket: FoundBucket) => ({
  ...bucket,
  newer: newerThan(bucket),
});
