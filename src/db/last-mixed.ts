import { and, desc, eq, inArray } from "drizzle-orm";
import type { Db } from "./client.ts";
import { mixEnds, mixes } from "./schema/index.ts";

/** When each bucket was last mixed into, as far as a mix was finished: bucket id → moment. */
export async function findLastMixed(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, Date>> {
  if (bucketIds.length === 0) return new Map();
  const { bucketId } = mixes;
  const rows = await db
    .selectDistinctOn([bucketId], { bucketId, at: mixEnds.at })
    .from(mixes)
    .innerJoin(mixEnds, eq(mixEnds.mixId, mixes.id))
    .where(and(inArray(bucketId, [...bucketIds]), eq(mixEnds.is, "finished")))
    .orderBy(bucketId, desc(mixEnds.at));
  return new Map(rows.map((row) => [row.bucketId, row.at]));
}
