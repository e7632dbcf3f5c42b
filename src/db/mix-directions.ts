import { desc, eq } from "drizzle-orm";
import type { Db } from "./client.ts";
import { bucketDirections } from "./schema/index.ts";

/** How what is mixed for a bucket is sieved and stirred, and how long it keeps; texts may be empty. */
export type MixDirections = { sieve: string; stirring: string; keepsMonths: number | null };

/** The newest directions of a bucket, where somebody wrote some. */
export async function findMixDirections(
  db: Db,
  bucketId: string,
): Promise<MixDirections | undefined> {
  const [newest] = await db
    .select({
      sieve: bucketDirections.sieve,
      stirring: bucketDirections.stirring,
      keepsMonths: bucketDirections.keepsMonths,
    })
    .from(bucketDirections)
    .where(eq(bucketDirections.bucketId, bucketId))
    .orderBy(desc(bucketDirections.id))
    .limit(1);
  return newest;
}
