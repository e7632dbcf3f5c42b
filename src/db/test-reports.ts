import { and, asc, eq } from "drizzle-orm";
import { validate as isUuid } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { people, recipes, revisions, testReports, tests } from "./schema/index.ts";

export type FoundReport = {
  sha256: string;
  size: number;
  by: { id: string; name: string };
  at: Date;
};

/**
 * Keeps a laboratory's report with its test, as it came. The caller found the test through the
 * reader's scope and that they may change it; the same file is kept once a test.
 */
export async function addReport(
  db: Db,
  params: Act & { by: string; testId: string; report: { sha256: string; bytes: Uint8Array } },
): Promise<{ kind: "added" } | { kind: "there-already" }> {
  const { testId, report, by, at } = params;
  return db.transaction(async (tx) => {
    const [made] = await tx
      .insert(testReports)
      .values({ testId, ...report, size: report.bytes.length, by, at })
      .onConflictDoNothing()
      .returning({ sha256: testReports.sha256 });
    if (!made) return { kind: "there-already" };
    const detail = { sha256: report.sha256, size: report.bytes.length };
    const happening = { kind: "report added", subject: "test", subjectId: testId, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added" };
  });
}

/** The reports of one test, without their bytes, in the order in which they came. */
export function listReports(db: Db, { testId }: { testId: string }): Promise<FoundReport[]> {
  return db
    .select({
      sha256: testReports.sha256,
      size: testReports.size,
      by: { id: people.id, name: people.name },
      at: testReports.at,
    })
    .from(testReports)
    .innerJoin(people, eq(people.id, testReports.by))
    .where(eq(testReports.testId, testId))
    .orderBy(asc(testReports.at), asc(testReports.sha256));
}

/** A report's bytes, where the reader may know of the test that it belongs to. */
export async function findReport(
  db: Db,
  { testId, sha256, reader }: { testId: string; sha256: string; reader: Reader },
): Promise<Uint8Array | undefined> {
  if (!isUuid(testId)) return undefined;
  const [kept] = await db
    .select({ bytes: testReports.bytes })
    .from(testReports)
    .innerJoin(tests, eq(tests.id, testReports.testId))
    .innerJoin(revisions, eq(revisions.id, tests.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(eq(testReports.testId, testId), eq(testReports.sha256, sha256), readableBy(reader)));
  return kept?.bytes ?? undefined;
}
