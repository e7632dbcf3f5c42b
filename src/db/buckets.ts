import type { Decimal } from "decimal.js";
import { and, asc, desc, eq, gt, inArray, or, type SQL, sql } from "drizzle-orm";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Use } from "../chem/chemistry.ts";
import { moveWords } from "../chem/move-words.ts";
import { type BucketChemistry, findBucketChemistries } from "./bucket-chemistry.ts";
import { type Filling, findFillings } from "./bucket-fillings.ts";
import { type BucketReport, listOpenReports } from "./bucket-reports.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { cautionsOfUse, type MayUse, mayUseOf, type UseFacts } from "./may-use.ts";
import { type OpenRecall, openRecallsOfBuckets } from "./open-recalls.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  bucketChanges,
  bucketStates,
  buckets,
  people,
  recipes,
  revisions,
} from "./schema/index.ts";
import type { Standing } from "./standing.ts";
import { findStandings } from "./standings.ts";

export { bucketStates };

export type BucketIs = (typeof bucketStates)[number];

/** Open, on hold or empty, since when, by whose word and why. */
export type BucketChange = { is: BucketIs; why: string; by: string; at: Date };

export type FoundBucket = {
  id: string;
  name: string;
  litres: Decimal;
  recipe: { slug: string; name: string };
  /** The revision that it follows, whatever the recipe's head is. */
  number: number;
  head: number;
  /** Of that revision: what is approved. */
  digest: string;
  use: Use;
  standing: Standing;
  forTest: boolean;
  addedBy: string;
  addedAt: Date;
  /** By the newest word on it; on hold until somebody says otherwise. */
  is: BucketIs;
  /** Newest first. */
  changes: BucketChange[];
  /** What somebody noticed and nobody has answered, oldest first. */
  reports: BucketReport[];
  /** That nobody closed: its own, and those of lots that are in it. */
  recalls: OpenRecall[];
  filling: Filling;
  /** null where nothing is in it. */
  chemistry: BucketChemistry | null;
  /** How what is in it is further from its revision than an approval bears, in words. */
  moved: string[];
  mayUse: MayUse;
  /** What is to be said of it before anything else, worst first. */
  cautions: string[];
};

export type BucketPlace = { nameKey: string; id: string };

/** Buckets in the order of their names, as far as the reader may know of their recipes. */
export async function listBuckets(
  db: Db,
  params: {
    reader: Reader;
    now: Date;
    after?: BucketPlace | undefined;
    limit: number;
    /** Leaves out those that are empty. */
    filled?: boolean | undefined;
  },
): Promise<{ items: FoundBucket[]; next: BucketPlace | null }> {
  const { reader, now, after, limit, filled } = params;
  const further =
    after &&
    or(
      gt(buckets.nameKey, after.nameKey),
      and(eq(buckets.nameKey, after.nameKey), gt(buckets.id, after.id)),
    );
  const which = and(readableBy(reader), further, filled ? notEmpty : undefined);
  const rows = await selectBuckets(db, which).limit(limit + 1);
  const page = rows.slice(0, limit);
  const last = page.at(-1);
  return {
    items: await complete(db, page, now),
    next: rows.length > limit && last ? { nameKey: last.nameKey, id: last.id } : null,
  };
}

/** One bucket, where the reader may know of its recipe. */
export async function findBucket(
  db: Db,
  { id, reader, now }: { id: string; reader: Reader; now: Date },
): Promise<FoundBucket | undefined> {
  if (!isUuid(id)) return undefined;
  return (await readBuckets(db, and(eq(buckets.id, id), readableBy(reader)), now))[0];
}

/** Some buckets in the order of their names, where the reader may know of their recipes. */
export async function findBuckets(
  db: Db,
  { ids, reader, now }: { ids: readonly string[]; reader: Reader; now: Date },
): Promise<FoundBucket[]> {
  if (ids.length === 0) return [];
  return readBuckets(db, and(inArray(buckets.id, [...ids]), readableBy(reader)), now);
}

/** Buckets by a condition, in the order of their names: who asks sees to what the reader may know. */
export const readBuckets = async (
  db: Db,
  which: SQL | undefined,
  now: Date,
): Promise<FoundBucket[]> => complete(db, await selectBuckets(db, which), now);

const lastWord = sql`(select c."is" from ${bucketChanges} c where c.bucket_id = ${buckets.id} order by c.id desc limit 1)`;

/** That the last word on a bucket is not that it is empty. */
export const notEmpty: SQL = sql`${lastWord} is distinct from 'empty'`;

/** That the last word on a bucket is that it is open. */
export const isOpen: SQL = sql`${lastWord} = 'open'`;

const selectBuckets = (db: Db, which: SQL | undefined) =>
  db
    .select({
      id: buckets.id,
      name: buckets.name,
      nameKey: buckets.nameKey,
      litres: buckets.litres,
      recipe: { slug: recipes.slug, name: recipes.name },
      revisionId: revisions.id,
      number: revisions.number,
      head: recipes.head,
      digest: revisions.digest,
      use: revisions.use,
      forTest: buckets.forTest,
      addedBy: people.name,
      addedAt: buckets.addedAt,
    })
    .from(buckets)
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, buckets.addedBy))
    .where(which)
    .orderBy(asc(buckets.nameKey), asc(buckets.id));

async function complete(
  db: Db,
  rows: Awaited<ReturnType<typeof selectBuckets>>,
  now: Date,
): Promise<FoundBucket[]> {
  if (rows.length === 0) return [];
  const revisionIds = [...new Set(rows.map(({ revisionId }) => revisionId))];
  const standings = await findStandings(db, { revisionIds, now });
  const ids = rows.map(({ id }) => id);
  const changes = await listChanges(db, ids);
  const reports = await listOpenReports(db, ids);
  const recalls = await openRecallsOfBuckets(db, ids);
  const fillings = await findFillings(db, ids);
  const filled = rows.flatMap(({ id, revisionId }) => {
    const filling = fillings.get(id);
    return filling ? [{ id, revisionId, filling }] : [];
  });
  const chemistries = await findBucketChemistries(db, filled);
  return rows.map(({ revisionId, nameKey: _, ...row }) => {
    const standing = standings.get(revisionId);
    const filling = fillings.get(row.id);
    if (!standing || !filling)
      throw new Error("every bucket has a filling, its revision a standing");
    const chemistry = chemistries.get(row.id) ?? null;
    const said = {
      standing,
      changes: changes.get(row.id) ?? [],
      reports: reports.get(row.id) ?? [],
      recalls: recalls.get(row.id) ?? [],
      moved: chemistry?.moves.map(moveWords) ?? [],
    };
    const is = said.changes[0]?.is ?? "hold";
    const facts = useFacts({ ...row, ...said, is, filling });
    const use = { mayUse: mayUseOf(facts), cautions: cautionsOfUse(facts) };
    return { ...row, ...said, is, filling, chemistry, ...use };
  });
}

type Told = Omit<UseFacts, "mixed" | "stirredUp" | "notThisLot"> &
  Pick<FoundBucket, "changes" | "filling">;

function useFacts({ filling, changes: [last], ...told }: Told): UseFacts {
  const { contents, mixed, unfinishedAt } = filling;
  const doubtful = contents.powders.flatMap(({ notThisLot, material }) =>
    notThisLot ? [material.name] : [],
  );
  const stirredUp = unfinishedAt !== null && last !== undefined && unfinishedAt >= last.at;
  return { ...told, mixed, stirredUp, notThisLot: [...new Set(doubtful)] };
}

async function listChanges(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, BucketChange[]>> {
  const changes = new Map<string, BucketChange[]>();
  if (bucketIds.length === 0) return changes;
  const rows = await db
    .select({
      bucketId: bucketChanges.bucketId,
      is: bucketChanges.is,
      why: bucketChanges.why,
      by: people.name,
      at: bucketChanges.at,
    })
    .from(bucketChanges)
    .innerJoin(people, eq(people.id, bucketChanges.by))
    .where(inArray(bucketChanges.bucketId, [...bucketIds]))
    .orderBy(desc(bucketChanges.id));
  for (const { bucketId, ...change } of rows)
    changes.set(bucketId, [...(changes.get(bucketId) ?? []), change]);
  return changes;
}

/** A word on what a bucket is from now on. */
export type BucketWord = Act & { by: string; bucketId: string; is: BucketIs; why: string };

/** Says of a bucket that it is open, on hold or empty from now on, and why. */
export async function changeBucket(
  db: Db,
  { bucketId, is, why, by, at }: BucketWord,
): Promise<void> {
  await db.transaction(async (tx) => {
    await tx.insert(bucketChanges).values({ id: uuidv7(), bucketId, is, why, by, at });
    const detail = { is };
    await appendEvent(
      tx,
      { by, at },
      { kind: "bucket changed", subject: "bucket", subjectId: bucketId, detail },
    );
  });
}
