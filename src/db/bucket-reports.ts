import { and, asc, desc, eq, inArray, isNull } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent, appendEvents, type Happening } from "./events.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  bucketChanges,
  bucketReportAnswers,
  bucketReports,
  buckets,
  bucketTroubles,
  people,
  recipes,
  revisions,
} from "./schema/index.ts";

export { bucketTroubles };

export type BucketTrouble = (typeof bucketTroubles)[number];

/** What somebody noticed of a bucket. */
export type BucketReport = {
  id: string;
  trouble: BucketTrouble;
  note: string;
  by: string;
  at: Date;
};

/** What was done about a report; null while nobody has said. */
export type ReportAnswer = { done: string; by: string; at: Date } | null;

export type AnsweredReport = BucketReport & { answer: ReportAnswer };

/** The reports that nobody has answered, oldest first: bucket id → reports. */
export async function listOpenReports(
  db: Db,
  bucketIds: readonly string[],
): Promise<Map<string, BucketReport[]>> {
  const open = new Map<string, BucketReport[]>();
  if (bucketIds.length === 0) return open;
  const rows = await selectReports(db)
    .where(
      and(inArray(bucketReports.bucketId, [...bucketIds]), isNull(bucketReportAnswers.reportId)),
    )
    .orderBy(asc(bucketReports.id));
  for (const row of rows) {
    const { bucketId, answer: _, ...report } = asReport(row);
    open.set(bucketId, [...(open.get(bucketId) ?? []), report]);
  }
  return open;
}

/** The reports of a bucket that was found through the reader's scope, newest first. */
export async function listReports(
  db: Db,
  { bucketId, limit }: { bucketId: string; limit: number },
): Promise<AnsweredReport[]> {
  const rows = await selectReports(db)
    .where(eq(bucketReports.bucketId, bucketId))
    .orderBy(desc(bucketReports.id))
    .limit(limit);
  return rows.map(asReport);
}

/** One report and the bucket that it is of, where the reader may know of that one's recipe. */
export async function findReport(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<(AnsweredReport & { bucketId: string }) | undefined> {
  if (!isUuid(id)) return undefined;
  const [row] = await selectReports(db).where(and(eq(bucketReports.id, id), readableBy(reader)));
  return row && asReport(row);
}

const answerers = alias(people, "answerers");

const selectReports = (db: Db) =>
  db
    .select({
      bucketId: bucketReports.bucketId,
      id: bucketReports.id,
      trouble: bucketReports.trouble,
      note: bucketReports.note,
      by: people.name,
      at: bucketReports.at,
      done: bucketReportAnswers.done,
      answeredBy: answerers.name,
      answeredAt: bucketReportAnswers.at,
    })
    .from(bucketReports)
    .innerJoin(buckets, eq(buckets.id, bucketReports.bucketId))
    .innerJoin(revisions, eq(revisions.id, buckets.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, bucketReports.by))
    .leftJoin(bucketReportAnswers, eq(bucketReportAnswers.reportId, bucketReports.id))
    .leftJoin(answerers, eq(answerers.id, bucketReportAnswers.by))
    .$dynamic();

type Row = Awaited<ReturnType<typeof selectReports>>[number];

const asReport = ({ done, answeredBy, answeredAt, ...report }: Row) => ({
  ...report,
  answer:
    done === null || answeredBy === null || answeredAt === null
      ? null
      : { done, by: answeredBy, at: answeredAt },
});

type Given = { bucketId: string; trouble: BucketTrouble; note: string };

/** Reports what is wrong with a bucket. A contaminated one is on hold from the same moment. */
export async function reportBucket(
  db: Db,
  { bucketId, trouble, note, by, at }: Act & Given & { by: string },
): Promise<string> {
  const id = uuidv7();
  await db.transaction(async (tx) => {
    await tx.insert(bucketReports).values({ id, bucketId, trouble, note, by, at });
    const happened: Happening[] = [told(bucketId, "bucket reported", { report: id, trouble })];
    if (trouble === "contaminated") {
      const why = note === "" ? "Reported as contaminated." : `Reported as contaminated: ${note}`;
      const held = { bucketId, is: "hold", why: why.slice(0, 1000), by, at } as const;
      await tx.insert(bucketChanges).values({ id: uuidv7(), ...held });
      happened.push(told(bucketId, "bucket changed", { is: "hold" }));
    }
    await appendEvents(
      tx,
      happened.map((happening) => ({ act: { by, at }, happening })),
    );
  });
  return id;
}

/** Says what was done about a report, which ends it. One answer ends it for good. */
export async function answerReport(
  db: Db,
  given: Act & { by: string; reportId: string; bucketId: string; done: string },
): Promise<"answered" | "answered-before"> {
  const { reportId, bucketId, done, by, at } = given;
  return db.transaction(async (tx) => {
    const kept = await tx
      .insert(bucketReportAnswers)
      .values({ reportId, done, by, at })
      .onConflictDoNothing()
      .returning({ reportId: bucketReportAnswers.reportId });
    if (kept.length === 0) return "answered-before";
    await appendEvent(
      tx,
      { by, at },
      told(bucketId, "bucket report answered", { report: reportId }),
    );
    return "answered";
  });
}

const told = (subjectId: string, kind: string, detail: Happening["detail"]): Happening => ({
  kind,
  subject: "bucket",
  subjectId,
  detail,
});
