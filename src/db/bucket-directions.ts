import type { Decimal } from "decimal.js";
import { desc, eq, inArray, type SQL } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Band } from "../chem/bands.ts";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { bodies, bucketDirections, people } from "./schema/index.ts";

/** How a bucket should be and how to use it. What nobody said is null or empty. */
export type Directions = {
  gravity: Band | null;
  /** Seconds. */
  flow: Band | null;
  /** Millimetres of a dried coat. */
  coat: Band | null;
  body: { slug: string; name: string } | null;
  bisqueCone: Cone | null;
  dipSeconds: Decimal | null;
  coats: number | null;
  /** How far to keep clear of the foot. */
  footMm: Decimal | null;
  catchDish: boolean;
  sieve: string;
  stirring: string;
  /** Its shelf life. */
  keepsMonths: number | null;
  /** Whom to ask. */
  ask: string;
};

export type FoundDirections = Directions & { by: string; at: Date };

/** The directions that count for each bucket which has any: bucket id → directions. */
export async function findDirections(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, FoundDirections>> {
  if (bucketIds.length === 0) return new Map();
  const newest = db
    .selectDistinctOn([bucketDirections.bucketId], { id: bucketDirections.id })
    .from(bucketDirections)
    .where(inArray(bucketDirections.bucketId, [...bucketIds]))
    .orderBy(bucketDirections.bucketId, desc(bucketDirections.id));
  const rows = await selectDirections(db, inArray(bucketDirections.id, newest));
  return new Map(rows.map((row) => [row.said.bucketId, found(row)]));
}

/** Everything that was said of how to use a bucket, newest first: the first counts. */
export const listDirections = async (db: Db, bucketId: string): Promise<FoundDirections[]> =>
  (await selectDirections(db, eq(bucketDirections.bucketId, bucketId))).map(found);

const selectDirections = (db: Db, which: SQL) =>
  db
    .select({
      said: bucketDirections,
      body: { slug: bodies.slug, name: bodies.name },
      by: people.name,
    })
    .from(bucketDirections)
    .innerJoin(people, eq(people.id, bucketDirections.by))
    .leftJoin(bodies, eq(bodies.id, bucketDirections.bodyId))
    .where(which)
    .orderBy(desc(bucketDirections.id));

type Row = Awaited<ReturnType<typeof selectDirections>>[number];

const found = ({ said, body, by }: Row): FoundDirections => ({
  gravity: bandOf(said.gravityLow, said.gravityHigh),
  flow: bandOf(said.flowLow, said.flowHigh),
  coat: bandOf(said.coatLow, said.coatHigh),
  body,
  // The schema bounds its shape; it was taken from the list of cones.
  bisqueCone: said.bisqueCone as Cone | null,
  dipSeconds: said.dipSeconds,
  coats: said.coats,
  footMm: said.footMm,
  catchDish: said.catchDish,
  sieve: said.sieve,
  stirring: said.stirring,
  keepsMonths: said.keepsMonths,
  ask: said.ask,
  by,
  at: said.at,
});

const bandOf = (low: Decimal | null, high: Decimal | null): Band | null =>
  low && high && { low, high };

type Given = Omit<Directions, "body"> & { bucketId: string; bodyId: string | null };

/** Says how a bucket should be and how to use it from now on, in place of what was said before. */
export async function setDirections(
  db: Db,
  { bucketId, gravity, flow, coat, by, at, ...more }: Act & Given & { by: string },
): Promise<void> {
  await db.transaction(async (tx) => {
    await tx.insert(bucketDirections).values({
      ...{ id: uuidv7(), bucketId, ...more, by, at },
      ...{ gravityLow: gravity?.low ?? null, gravityHigh: gravity?.high ?? null },
      ...{ flowLow: flow?.low ?? null, flowHigh: flow?.high ?? null },
      ...{ coatLow: coat?.low ?? null, coatHigh: coat?.high ?? null },
    });
    await appendEvent(
      tx,
      { by, at },
      { kind: "bucket directed", subject: "bucket", subjectId: bucketId },
    );
  });
}
