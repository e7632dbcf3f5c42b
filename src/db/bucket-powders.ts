import type { Decimal } from "decimal.js";
import { asc, eq, inArray, sql } from "drizzle-orm";
import { dryGravityOf, dryGravityWords } from "../chem/blend-slurries.ts";
import type { Db } from "./client.ts";
import { withDryGravities } from "./material-gravities.ts";
import { buckets, chemistries, materials, revisionLines } from "./schema/index.ts";

/** What the powders of a bucket's recipe are to whoever stirs and measures it. */
export type BucketPowders = {
  /** Of the dry powder as a whole, and what that stands on. */
  dryGravity: { value: Decimal; says: string };
  /** Whether any of them dissolves in the glaze water, by its hazards or by what is in it. */
  dissolves: boolean;
  hazards: string[];
};

/** The powders of what each bucket follows: bucket id → powders. */
export async function findBucketPowders(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, BucketPowders>> {
  if (bucketIds.length === 0) return new Map();
  const rows = await db
    .select({
      bucketId: buckets.id,
      materialId: materials.id,
      hazards: materials.hazards,
      part: revisionLines.part,
      amount: revisionLines.amount,
      dissolves: sql<boolean>`${chemistries.detail} @> ${dissolving}::jsonb`,
    })
    .from(buckets)
    .innerJoin(revisionLines, eq(revisionLines.revisionId, buckets.revisionId))
    .innerJoin(materials, eq(materials.id, revisionLines.materialId))
    .innerJoin(chemistries, eq(chemistries.revisionId, buckets.revisionId))
    .where(inArray(buckets.id, [...bucketIds]))
    .orderBy(asc(revisionLines.position));
  const known = await withDryGravities(db, rows, ({ materialId }) => materialId);
  const powders = new Map<string, BucketPowders>();
  for (const bucketId of new Set(rows.map((row) => row.bucketId))) {
    const lines = known.filter((row) => row.bucketId === bucketId);
    const hazards = [...new Set(lines.flatMap((line) => line.hazards))];
    powders.set(bucketId, {
      dryGravity: { value: dryGravityOf(lines).value, says: dryGravityWords(lines) },
      dissolves: hazards.includes("soluble") || lines.some((line) => line.dissolves),
      hazards,
    });
  }
  return powders;
}

/** What the chemistry of a recipe holds where it found a powder that dissolves. */
const dissolving = JSON.stringify({ findings: [{ rule: "handling-soluble" }] });
