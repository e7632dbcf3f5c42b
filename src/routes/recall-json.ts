import { untouchedWords, whatWords } from "../../views/recalls/words.ts";
import type { FoundBucket } from "../db/buckets.ts";
import type { Affected } from "../db/recall-reach.ts";
import type { Recall } from "../db/recalls.ts";

/** A recall as its list tells it. */
export const recallJson = (recall: Recall) => ({
  id: recall.id,
  of: recall.of,
  says: whatWords(recall.of),
  why: recall.why,
  by: recall.by,
  at: recall.at,
  closing: recall.closing,
});

/** What a recall reaches, as far as the reader may know of the buckets. */
export type Reached = {
  buckets: ReachedBucket[];
  mixes: Affected["mixes"];
  tiles: Affected["tiles"];
  people: ReachedPerson[];
  /** How many buckets there are besides, of recipes that the reader may not know of. */
  hidden: number;
};

export type ReachedBucket = {
  bucket: FoundBucket;
  /** Whether what is recalled is in it now. */
  stillIn: boolean;
};

export type ReachedPerson = {
  id: string;
  name: string;
  /** What they had to do with it, in order. */
  did: { what: "mixed" | "used" | "tile"; note: string; bucket: string; at: Date }[];
};

/** What is affected, put together from its rows for who may know of these buckets. */
export function reachedOf(
  recall: Recall,
  { mixes, uses, tiles }: Affected,
  known: readonly FoundBucket[],
): Reached {
  const nameOf = new Map(known.map(({ id, name }) => [id, name]));
  const isKnown = ({ bucketId }: { bucketId: string }) => nameOf.has(bucketId);
  const did = (
    bucketId: string,
    what: ReachedPerson["did"][number]["what"],
    note: string,
    at: Date,
  ) => ({
    what,
    note,
    bucket: nameOf.get(bucketId) ?? "",
    at,
  });
  const acts = [
    ...mixes
      .filter(isKnown)
      .flatMap(({ people, bucketId, at }) =>
        people.map((by) => ({ by, did: did(bucketId, "mixed", "", at) })),
      ),
    ...uses
      .filter(isKnown)
      .map(({ by, bucketId, what, at }) => ({ by, did: did(bucketId, "used", what, at) })),
    ...tiles
      .filter(isKnown)
      .map(({ by, bucketId, recipe, at }) => ({ by, did: did(bucketId, "tile", recipe, at) })),
  ].sort((one, other) => one.did.at.getTime() - other.did.at.getTime());
  const people = new Map<string, ReachedPerson>();
  for (const { by, did } of acts) {
    const before = people.get(by.id)?.did ?? [];
    people.set(by.id, { ...by, did: [...before, did] });
  }
  const stillIn = new Set(mixes.filter((mix) => mix.stillIn).map(({ bucketId }) => bucketId));
  if (recall.of.kind === "bucket") stillIn.add(recall.of.id);
  return {
    buckets: known.map((bucket) => ({ bucket, stillIn: stillIn.has(bucket.id) })),
    mixes: mixes.filter(isKnown),
    tiles: tiles.filter(isKnown),
    people: [...people.values()].sort((one, other) => (one.name < other.name ? -1 : 1)),
    hidden: bucketIdsOf(recall, { mixes, uses, tiles }).length - known.length,
  };
}

/** The buckets that a recall reaches. */
export const bucketIdsOf = ({ of }: Recall, { mixes, uses, tiles }: Affected): string[] => [
  ...new Set([
    ...(of.kind === "bucket" ? [of.id] : []),
    ...[...mixes, ...uses, ...tiles].map(({ bucketId }) => bucketId),
  ]),
];

export const reachedJson = (recall: Recall, reached: Reached) => ({
  buckets: reached.buckets.map(({ bucket, stillIn }) => ({
    id: bucket.id,
    name: bucket.name,
    recipe: bucket.recipe,
    revision: bucket.number,
    stillIn,
  })),
  mixes: reached.mixes.map(({ bucketId, stillIn: _, ...mix }) => ({ ...mix, bucket: bucketId })),
  tiles: reached.tiles.map(({ bucketId, ...tile }) => ({ ...tile, bucket: bucketId })),
  people: reached.people,
  furtherBuckets: reached.hidden,
  approvals: untouchedWords(recall.of),
});
