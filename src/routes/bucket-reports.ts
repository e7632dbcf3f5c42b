import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { ReportAnswerForm, ReportsPage } from "../../views/buckets/reports-page.tsx";
import {
  type AnsweredReport,
  answerReport,
  findReport,
  listReports,
  reportBucket,
} from "../db/bucket-reports.ts";
import { type FoundBucket, findBucket } from "../db/buckets.ts";
import { answer, changed, created } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { reportAnswerBody, reportBody } from "./bucket-care-body.ts";
import { emptyFault, stateOf } from "./bucket-json.ts";

export const bucketReports = new Hono<Env>();

const mostReports = 100;

bucketReports.get(
  "/buckets/:id/reports",
  described({ says: "What people noticed of a bucket, newest first, and what was done" }),
  memberRequired,
  async (c) => {
    const bucket = await bucketOf(c, c.req.param("id"));
    if (!bucket) return notFound(c);
    const items = await listReports(c.var.db, { bucketId: bucket.id, limit: mostReports });
    return answer(c, {
      json: () => ({ items, next: null }),
      ...(await reportsSheet(c, bucket, {}, [])),
    });
  },
);

bucketReports.post(
  "/buckets/:id/reports",
  described({
    says: "Report what is wrong with a bucket; a contaminated one is on hold at once",
    body: reportBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const bucket = await bucketOf(c, c.req.param("id"));
    if (!bucket) return notFound(c);
    const read = await readBody(c, reportBody);
    if (read.kind === "refused")
      return faulty(c, read, await reportsSheet(c, bucket, read.typed, read.faults));
    if (stateOf(bucket)?.is === "empty") {
      const faults = [emptyFault("trouble")];
      return faulty(c, { faults }, await reportsSheet(c, bucket, read.typed, faults));
    }
    const { trouble, note } = read.value;
    const { db } = c.var;
    const id = await reportBucket(db, { bucketId: bucket.id, trouble, note, ...actOf(c) });
    const report = await findReport(db, { id, reader: c.var.viewer });
    return created(c, `/buckets/${bucket.id}#use`, report && reportJson(report));
  },
);

bucketReports.get(
  "/bucket-reports/:id/answer",
  described({ says: "The form to say what was done about a report; as JSON the report" }),
  managerRequired,
  async (c) => {
    const found = await reportOf(c);
    if (!found) return notFound(c);
    return answer(c, { json: () => reportJson(found.report), ...answerSheet(found, {}, []) });
  },
);

bucketReports.on(
  ["PUT", "POST"],
  "/bucket-reports/:id/answer",
  described({
    says: "Say what was done about a report, which ends it",
    body: reportAnswerBody,
  }),
  managerRequired,
  async (c) => {
    const found = await reportOf(c);
    if (!found) return notFound(c);
    const read = await readBody(c, reportAnswerBody);
    if (read.kind === "refused")
      return faulty(c, read, answerSheet(found, read.typed, read.faults));
    const { report, bucket } = found;
    const ended = { reportId: report.id, bucketId: bucket.id, done: read.value.done };
    switch (await answerReport(c.var.db, { ...ended, ...actOf(c) })) {
      case "answered-before": {
        const faults = [{ path: "done", says: "Somebody said before what was done about it." }];
        return faulty(c, { faults }, answerSheet(found, read.typed, faults));
      }
      case "answered": {
        const now = await reportOf(c);
        return changed(c, `/buckets/${bucket.id}/reports`, now && reportJson(now.report));
      }
    }
  },
);

const bucketOf = (c: Ctx, id: string) =>
  findBucket(c.var.db, { id, reader: c.var.viewer, now: c.var.now });

type Found = { report: AnsweredReport & { bucketId: string }; bucket: FoundBucket };

async function reportOf(c: Ctx): Promise<Found | undefined> {
  const id = c.req.param("id") ?? "";
  const report = await findReport(c.var.db, { id, reader: c.var.viewer });
  const bucket = report && (await bucketOf(c, report.bucketId));
  return bucket && { report, bucket };
}

const reportJson = ({ bucketId, ...report }: Found["report"]) => ({ ...report, bucket: bucketId });

async function reportsSheet(c: Ctx, bucket: FoundBucket, typed: Typed, faults: readonly Fault[]) {
  const reports = await listReports(c.var.db, { bucketId: bucket.id, limit: mostReports });
  return {
    page: { title: `Reports of ${bucket.name}`, here: "buckets" } as const,
    view: () =>
      ReportsPage({
        bucket,
        reports,
        isEmpty: stateOf(bucket)?.is === "empty",
        mayAnswer: memberOf(c).role === "manager",
        note: typedText(typed, "note"),
        faults,
        idempotencyKey: uuidv7(),
      }),
  };
}

const answerSheet = ({ report, bucket }: Found, typed: Typed, faults: readonly Fault[]) => ({
  page: { title: "What was done", here: "buckets" } as const,
  view: () => ReportAnswerForm({ bucket, report, done: typedText(typed, "done"), faults }),
});
