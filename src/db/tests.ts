import type { Decimal } from "decimal.js";
import { and, asc, eq, inArray, type SQL, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid } from "uuid";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { type Reader, readableBy, type Scope, type Withdrawal } from "./recipes.ts";
import {
  testKinds as kinds,
  testOutcomes as outcomes,
  people,
  recipes,
  revisions,
  testResults,
  tests,
  testWithdrawals,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";

export type TestKind = (typeof kinds)[number];
export type TestOutcome = (typeof outcomes)[number];

/** What a tile can be put through, in the order in which people choose from it. */
export const testKinds = kinds;
export const testOutcomes = outcomes;

/** One figure of a leach report, in the report's own unit: it is never turned into another. */
export type TestResult = {
  element: string;
  qualifier: "=" | "<";
  value: Decimal;
  unit: string;
  detectionLimit: Decimal | null;
  specimen: string;
};

/** The tile that was tested, and whether it still counts. */
export type TestedTile = {
  id: string;
  cone: Cone;
  atmosphere: Atmosphere;
  clay: string;
  /** Over another glaze: a test of it speaks for the pair alone. */
  layered: boolean;
  withdrawn: boolean;
};

export type FoundTest = {
  id: string;
  /** The recipe and the revision that it was made for. */
  recipe: { slug: string; name: string };
  number: number;
  kind: TestKind;
  method: string;
  laboratory: string;
  articleClass: string;
  report: string;
  outcome: TestOutcome;
  remark: string;
  /** `unknown` where it was made on a tile that the reader may not know of. */
  tile: TestedTile | "unknown" | null;
  results: TestResult[];
  by: { id: string; name: string };
  at: Date;
  withdrawn: Withdrawal | null;
};

/**
 * Tests of one melt, whichever recipe and revision they were made for, as far as the reader may know
 * of them; newest last. What was withdrawn is among them and says so.
 */
export const listTests = (
  db: Db,
  { meltDigest, reader }: { meltDigest: string; reader: Scope },
): Promise<FoundTest[]> => readTests(db, eq(revisions.meltDigest, meltDigest), reader);

/** The tests that were made on one tile, newest last. */
export const listTestsOfTile = (
  db: Db,
  { tileId, reader }: { tileId: string; reader: Reader },
): Promise<FoundTest[]> => readTests(db, eq(tests.tileId, tileId), reader);

/** One test. `mayWithdraw`: who added it, the recipe's owner, or a manager. */
export async function findTest(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<(FoundTest & { mayWithdraw: boolean }) | undefined> {
  if (!isUuid(id)) return undefined;
  const [test] = await readTests(db, eq(tests.id, id), reader);
  if (!test) return undefined;
  const { ownerId, ...found } = test;
  const mayWithdraw =
    reader !== undefined &&
    (reader.role === "manager" || reader.id === test.by.id || reader.id === ownerId);
  return { ...found, mayWithdraw };
}

const withdrawers = alias(people, "test_withdrawers");
const tileRevisions = alias(revisions, "tile_revisions");

async function readTests(
  db: Db,
  which: SQL,
  reader: Scope,
): Promise<(FoundTest & { ownerId: string })[]> {
  const rows = await db
    .select({
      test: tests,
      recipe: { slug: recipes.slug, name: recipes.name },
      ownerId: recipes.ownerId,
      number: revisions.number,
      tile: tiles,
      tileWithdrawn: sql<boolean>`${tileWithdrawals.tileId} is not null`,
      tileRecipe: tileRevisions.recipeId,
      by: { id: people.id, name: people.name },
      withdrawnWhy: testWithdrawals.why,
      withdrawnAt: testWithdrawals.at,
      withdrawnBy: withdrawers.name,
    })
    .from(tests)
    .innerJoin(revisions, eq(revisions.id, tests.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, tests.by))
    .leftJoin(tiles, eq(tiles.id, tests.tileId))
    .leftJoin(tileRevisions, eq(tileRevisions.id, tiles.revisionId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .leftJoin(testWithdrawals, eq(testWithdrawals.testId, tests.id))
    .leftJoin(withdrawers, eq(withdrawers.id, testWithdrawals.by))
    .where(and(which, readableBy(reader)))
    .orderBy(asc(tests.id));
  const figures = await listResults(
    db,
    rows.map(({ test }) => test.id),
  );
  const known = await readableRecipes(
    db,
    rows.flatMap(({ tileRecipe }) => tileRecipe ?? []),
    reader,
  );
  return rows.map(({ test, tile, withdrawnWhy: why, withdrawnAt: at, withdrawnBy: by, ...row }) => {
    const { revisionId: _, tileId: __, by: ___, ...said } = test;
    const isKnown = row.tileRecipe !== null && known.has(row.tileRecipe);
    return {
      ...said,
      recipe: row.recipe,
      ownerId: row.ownerId,
      number: row.number,
      by: row.by,
      tile: tile && (isKnown ? testedTile(tile, row.tileWithdrawn) : "unknown"),
      results: figures.get(test.id) ?? [],
      withdrawn: why !== null && at !== null && by !== null ? { why, at, by } : null,
    };
  });
}

const testedTile = (tile: typeof tiles.$inferSelect, withdrawn: boolean): TestedTile => ({
  id: tile.id,
  // The schema bounds its shape; it was taken from the list of cones.
  cone: tile.cone as Cone,
  atmosphere: tile.atmosphere,
  clay: tile.clay,
  layered: tile.overId !== null,
  withdrawn,
});

/** Of some recipes those that the reader may know of. */
async function readableRecipes(db: Db, ids: string[], reader: Scope): Promise<Set<string>> {
  if (ids.length === 0) return new Set();
  const rows = await db
    .select({ id: recipes.id })
    .from(recipes)
    .where(and(inArray(recipes.id, ids), readableBy(reader)));
  return new Set(rows.map(({ id }) => id));
}

async function listResults(db: Db, testIds: readonly string[]): Promise<Map<string, TestResult[]>> {
  if (testIds.length === 0) return new Map();
  const rows = await db
    .select()
    .from(testResults)
    .where(inArray(testResults.testId, [...testIds]))
    .orderBy(asc(testResults.testId), asc(testResults.position));
  const figures = new Map<string, TestResult[]>();
  for (const { testId, position: _, ...result } of rows)
    figures.set(testId, [...(figures.get(testId) ?? []), result]);
  return figures;
}
