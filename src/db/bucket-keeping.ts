import type { Decimal } from "decimal.js";
import { and, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { type BucketWord, changeBucket, readBuckets } from "./buckets.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { holdStill } from "./mixes.ts";
import { foldName } from "./names.ts";
import { againstOpening } from "./opening-buckets.ts";
import { buckets, revisions } from "./schema/index.ts";
import type { Standing } from "./standing.ts";
import { type Approved, findApproved, findStandings } from "./standings.ts";

export type NewBucket =
  | { kind: "added"; id: string }
  | { kind: "no-such-revision" }
  /** And nobody said that it is for a test; `approved` is the newest revision that is. */
  | { kind: "not-approved"; is: Standing["is"]; approved: Approved | null };

type Filled = {
  recipeId: string;
  number: number;
  name: string;
  litres: Decimal;
  /** Of a revision that nobody approved, for trying it out. */
  forTest?: boolean | undefined;
};

/**
 * Puts a bucket on record, of one revision of a recipe that was found through the reader's scope. It is
 * on hold until it was mixed and proved.
 */
export async function addBucket(
  db: Db,
  { recipeId, number, forTest = false, by, at, ...filled }: Act & Filled & { by: string },
): Promise<NewBucket> {
  return db.transaction(async (tx) => {
    const [revision] = await tx
      .select({ id: revisions.id, digest: revisions.digest })
      .from(revisions)
      .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)));
    if (!revision) return { kind: "no-such-revision" };
    const standing = await findStanding(tx, revision.id, at);
    if (standing.is !== "approved" && !forTest) {
      const approved = await findApproved(tx, { recipeId, now: at });
      return { kind: "not-approved", is: standing.is, approved };
    }
    const id = uuidv7();
    const { name, litres } = filled;
    const row = { id, revisionId: revision.id, name, nameKey: foldName(name), litres, forTest };
    await tx.insert(buckets).values({ ...row, addedBy: by, addedAt: at });
    const { id: revisionId, digest } = revision;
    const detail = { revision: revisionId, digest, litres: litres.toFixed(), forTest };
    const happening = { kind: "bucket added", subject: "bucket", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

/** What a revision counts as now, settled on the way. */
export async function findStanding(db: Db, revisionId: string, now: Date): Promise<Standing> {
  const standing = (await findStandings(db, { revisionIds: [revisionId], now })).get(revisionId);
  if (!standing) throw new Error("every revision has a standing");
  return standing;
}

export type Opened = { kind: "opened" } | { kind: "not-yet"; because: string[] };

/** Opens a bucket to members, where it was mixed and proved and nothing speaks against it. */
export async function openBucket(db: Db, change: Omit<BucketWord, "is">): Promise<Opened> {
  return db.transaction(async (tx) => {
    await holdStill(tx, change.bucketId);
    const [bucket] = await readBuckets(tx, eq(buckets.id, change.bucketId), change.at);
    if (!bucket) throw new Error("the bucket was found through its reader's scope");
    const because = againstOpening(bucket);
    if (because.length > 0) return { kind: "not-yet", because };
    await changeBucket(tx, { ...change, is: "open" });
    return { kind: "opened" };
  });
}
