import { Decimal } from "decimal.js";
import { and, asc, desc, eq, inArray, isNull, type SQL, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid } from "uuid";
import type { Part } from "../chem/lines.ts";
import type { Db } from "./client.ts";
import { listMixTicks, type MixTick } from "./mix-ticks.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  buckets,
  materials,
  type mixEndings,
  mixEnds,
  mixes,
  mixLines,
  people,
  recipes,
  revisions,
} from "./schema/index.ts";

export type { MixTick };

export type MixLine = {
  n: number;
  part: Part;
  material: { id: string; slug: string; name: string; hazards: string[] };
  /** What the revision pins; null where the material has no analysis. */
  analysisId: string | null;
  /** What the batch sheet says. */
  grams: Decimal;
  /** What the bucket holds of powders once this line and those before it are in. */
  runningGrams: Decimal;
  /** Oldest first, with those that were undone. */
  ticks: MixTick[];
  /** What is in of it now; null where nothing is. */
  put: Decimal | null;
};

export type MixEnd = {
  is: (typeof mixEndings)[number];
  waterGrams: Decimal | null;
  why: string;
  by: string;
  at: Date;
};

/** A batch that was or is being weighed into a bucket. */
export type FoundMix = {
  id: string;
  bucket: { id: string; name: string; litres: Decimal };
  recipe: { slug: string; name: string };
  revisionId: string;
  revision: number;
  baseGrams: Decimal;
  scaleGrams: Decimal;
  /** What the batch sheet says; null where the batch was asked for by weight alone. */
  waterGrams: Decimal | null;
  by: { id: string; name: string };
  at: Date;
  lines: MixLine[];
  /** Of the batch sheet, and of what is in now. */
  totalGrams: Decimal;
  putGrams: Decimal;
  /** null while it is open. */
  end: MixEnd | null;
};

/** One mix, where the reader may know of the recipe. */
export async function findMix(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<FoundMix | undefined> {
  if (!isUuid(id)) return undefined;
  return (await readMixes(db, and(eq(mixes.id, id), readableBy(reader)), 1))[0];
}

/** That a mix is there and the reader may know of it, and who opened it. */
export async function findMixOpener(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<{ id: string; by: { id: string } } | undefined> {
  if (!isUuid(id)) return undefined;
  const [mix] = await db
    .select({ id: mixes.id, by: { id: mixes.by } })
    .from(mixes)
    .innerJoin(revisions, eq(revisions.id, mixes.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(eq(mixes.id, id), readableBy(reader)));
  return mix;
}

/** A mix by its id, for what changes it and has found it through the reader's scope already. */
export const readMix = async (tx: Db, id: string): Promise<FoundMix | undefined> =>
  (await readMixes(tx, eq(mixes.id, id), 1))[0];

/** The mixes of a bucket that was found through the reader's scope, newest first. */
export const listMixes = (
  db: Db,
  { bucketId, limit }: { bucketId: string; limit: number },
): Promise<FoundMix[]> => readMixes(db, eq(mixes.bucketId, bucketId), limit);

/** The mix of a bucket that is not done with; there is one at most. */
export async function findOpenMix(db: Db, bucketId: string): Promise<string | undefined> {
  const [open] = await db
    .select({ id: mixes.id })
    .from(mixes)
    .leftJoin(mixEnds, eq(mixEnds.mixId, mixes.id))
    .where(and(eq(mixes.bucketId, bucketId), isNull(mixEnds.mixId)));
  return open?.id;
}

/** Holds what belongs to a bucket's or a mix's id until the transaction ends: its rows stay as they are. */
export const holdStill = (tx: Db, id: string) =>
  tx.execute(sql`select pg_advisory_xact_lock(hashtextextended(${id}, 0))`);

async function readMixes(db: Db, which: SQL | undefined, limit: number): Promise<FoundMix[]> {
  const enders = alias(people, "enders");
  const rows = await db
    .select({
      mix: mixes,
      bucket: { id: buckets.id, name: buckets.name, litres: buckets.litres },
      recipe: { slug: recipes.slug, name: recipes.name },
      revision: revisions.number,
      by: { id: people.id, name: people.name },
      end: {
        is: mixEnds.is,
        waterGrams: mixEnds.waterGrams,
        why: mixEnds.why,
        by: enders.name,
        at: mixEnds.at,
      },
    })
    .from(mixes)
    .innerJoin(buckets, eq(buckets.id, mixes.bucketId))
    .innerJoin(revisions, eq(revisions.id, mixes.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, mixes.by))
    .leftJoin(mixEnds, eq(mixEnds.mixId, mixes.id))
    .leftJoin(enders, eq(enders.id, mixEnds.by))
    .where(which)
    .orderBy(desc(mixes.id))
    .limit(limit);
  const lines = await readLines(
    db,
    rows.map(({ mix }) => mix.id),
  );
  return rows.map(({ mix, end, ...row }) => {
    const own = lines.get(mix.id) ?? [];
    return {
      ...row,
      id: mix.id,
      revisionId: mix.revisionId,
      baseGrams: mix.baseGrams,
      scaleGrams: mix.scaleGrams,
      waterGrams: mix.waterGrams,
      at: mix.at,
      lines: own,
      totalGrams: sumOf(own.map(({ grams }) => grams)),
      putGrams: sumOf(own.flatMap(({ put }) => put ?? [])),
      end: endOf(end),
    };
  });
}

type EndColumns = { [Column in keyof MixEnd]: MixEnd[Column] | null };

function endOf(end: EndColumns | null): MixEnd | null {
  if (!end) return null;
  const { is, waterGrams, why, by, at } = end;
  return is === null || why === null || by === null || at === null
    ? null
    : { is, waterGrams, why, by, at };
}

async function readLines(db: Db, mixIds: readonly string[]): Promise<Map<string, MixLine[]>> {
  if (mixIds.length === 0) return new Map();
  const rows = await db
    .select({
      line: mixLines,
      material: {
        id: materials.id,
        slug: materials.slug,
        name: materials.name,
        hazards: materials.hazards,
      },
    })
    .from(mixLines)
    .innerJoin(materials, eq(materials.id, mixLines.materialId))
    .where(inArray(mixLines.mixId, [...mixIds]))
    .orderBy(asc(mixLines.mixId), asc(mixLines.n));
  const ticks = await listMixTicks(db, mixIds);
  const lines = new Map<string, MixLine[]>();
  for (const { line, material } of rows) {
    const { mixId, n, part, analysisId, grams } = line;
    const own = ticks.filter((tick) => tick.mixId === mixId && tick.n === n);
    const before = lines.get(mixId) ?? [];
    const runningGrams = grams.plus(before.at(-1)?.runningGrams ?? 0);
    const read = { n, part, material, analysisId, grams, runningGrams, ticks: own };
    lines.set(mixId, [...before, { ...read, put: putIn(own) }]);
  }
  return lines;
}

function putIn(ticks: readonly MixTick[]): Decimal | null {
  const live = ticks.filter(({ undone }) => !undone);
  return live.length === 0 ? null : sumOf(live.map(({ grams }) => grams));
}

const sumOf = (grams: readonly Decimal[]): Decimal => Decimal.sum(0, ...grams);
