import { desc, eq } from "drizzle-orm";
import { validate as isUuid } from "uuid";
import type { Db } from "./client.ts";
import { openRecallsOfBuckets } from "./open-recalls.ts";
import { bucketChanges, buckets } from "./schema/index.ts";

/**
 * Whether a bucket is on hold or recalled: for whoever stands before it, of whatever recipe it is.
 * That, and no more, may be said to somebody who may not know of its recipe.
 */
export async function findBucketStop(
  db: Db,
  id: string,
): Promise<{ stopped: boolean } | undefined> {
  if (!isUuid(id)) return undefined;
  const [bucket] = await db
    .select({ is: bucketChanges.is })
    .from(buckets)
    .leftJoin(bucketChanges, eq(bucketChanges.bucketId, buckets.id))
    .where(eq(buckets.id, id))
    .orderBy(desc(bucketChanges.id))
    .limit(1);
  if (!bucket) return undefined;
  const recalls = await openRecallsOfBuckets(db, [id]);
  return { stopped: (bucket.is ?? "hold") === "hold" || recalls.has(id) };
}
