import type { Decimal } from "decimal.js";
import { desc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { findBucketPowders } from "./bucket-powders.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { additiveUnits, bucketAdditions, bucketAdditives, people } from "./schema/index.ts";

export { additiveUnits, bucketAdditives };

/** What went into a bucket beside its mixes, or came off it. */
export type GivenAddition = {
  what: (typeof bucketAdditives)[number];
  /** Such as Epsom salts. */
  named: string;
  amount: Decimal;
  unit: (typeof additiveUnits)[number];
};

export type BucketAddition = GivenAddition & { id: string; by: string; at: Date };

/** What went into a bucket, newest first. */
export async function listAdditions(
  db: Db,
  { bucketId, limit }: { bucketId: string; limit: number },
): Promise<BucketAddition[]> {
  const { id, what, named, amount, unit, at } = bucketAdditions;
  return db
    .select({ id, what, named, amount, unit, by: people.name, at })
    .from(bucketAdditions)
    .innerJoin(people, eq(people.id, bucketAdditions.by))
    .where(eq(bucketAdditions.bucketId, bucketId))
    .orderBy(desc(id))
    .limit(limit);
}

export type NewAddition = { kind: "added"; id: string } | { kind: "dissolves" };

/**
 * Puts on record what went into a bucket or came off it. Water off is refused where lines of the
 * recipe dissolve in it: it would take part of the glaze along.
 */
export async function addAddition(
  db: Db,
  given: Act & GivenAddition & { by: string; bucketId: string },
): Promise<NewAddition> {
  const { bucketId, what, amount, unit, by, at } = given;
  return db.transaction(async (tx) => {
    const powders = (await findBucketPowders(tx, [bucketId])).get(bucketId);
    if (what === "water off" && powders?.dissolves) return { kind: "dissolves" };
    const id = uuidv7();
    await tx.insert(bucketAdditions).values({ ...given, id });
    const detail = { addition: id, what, amount: amount.toFixed(), unit };
    await appendEvent(
      tx,
      { by, at },
      { kind: "bucket adjusted", subject: "bucket", subjectId: bucketId, detail },
    );
    return { kind: "added", id };
  });
}
