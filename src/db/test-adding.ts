import { and, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { revisions, testResults, tests, testWithdrawals, tiles } from "./schema/index.ts";
import type { TestKind, TestOutcome, TestResult } from "./tests.ts";
import { unsettleMelt } from "./unsettling.ts";

type Tested = {
  /** A tile that was found through the reader's scope. */
  tileId: string | null;
  kind: TestKind;
  method: string;
  laboratory: string;
  articleClass: string;
  report: string;
  outcome: TestOutcome;
  remark: string;
  results: readonly TestResult[];
};

export type NewTest =
  | { kind: "added"; id: string }
  | { kind: "no-such-revision" }
  | { kind: "other-melt" };

/**
 * Puts a test on record, of one revision of a recipe that was found through the reader's scope. A
 * tile has to be of the same melt, whichever recipe it was fired for.
 */
export async function addTest(
  db: Db,
  params: Act & { by: string; recipeId: string; number: number; test: Tested },
): Promise<NewTest> {
  const { recipeId, number, by, at } = params;
  const { results, ...test } = params.test;
  return db.transaction(async (tx) => {
    const [revision] = await tx
      .select({ id: revisions.id, melt: revisions.meltDigest })
      .from(revisions)
      .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)));
    if (!revision) return { kind: "no-such-revision" };
    if (test.tileId !== null && (await meltOfTile(tx, test.tileId)) !== revision.melt)
      return { kind: "other-melt" };
    const id = uuidv7();
    await tx.insert(tests).values({ id, revisionId: revision.id, ...test, by, at });
    if (results.length > 0) {
      const rows = results.map((result, position) => ({ testId: id, position, ...result }));
      await tx.insert(testResults).values(rows);
    }
    await unsettleMelt(tx, revision.melt);
    const { tileId: tile, kind, outcome } = test;
    const detail = { revision: revision.id, melt: revision.melt, tile, kind, outcome };
    const happening = { kind: "test added", subject: "test", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

async function meltOfTile(db: Db, tileId: string): Promise<string | undefined> {
  const [tile] = await db
    .select({ melt: revisions.meltDigest })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .where(eq(tiles.id, tileId));
  return tile?.melt;
}

export type TestWithdrawal = { kind: "withdrawn" } | { kind: "withdrawn-before" };

/** Withdraws a test, for good and with the reason: it stays on record and counts for nothing. */
export async function withdrawTest(
  db: Db,
  { testId, why, by, at }: Act & { by: string; testId: string; why: string },
): Promise<TestWithdrawal> {
  return db.transaction(async (tx) => {
    const [made] = await tx
      .insert(testWithdrawals)
      .values({ testId, why, by, at })
      .onConflictDoNothing()
      .returning({ testId: testWithdrawals.testId });
    if (!made) return { kind: "withdrawn-before" };
    const [test] = await tx
      .select({ melt: revisions.meltDigest })
      .from(tests)
      .innerJoin(revisions, eq(revisions.id, tests.revisionId))
      .where(eq(tests.id, testId));
    if (test) await unsettleMelt(tx, test.melt);
    const happening = { kind: "test withdrawn", subject: "test", subjectId: testId } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "withdrawn" };
  });
}
