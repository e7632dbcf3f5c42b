import { Hono } from "hono";
import { z } from "zod";
import { addTestPhoto } from "../db/test-photos.ts";
import { addReport, findReport } from "../db/test-reports.ts";
import { changed, created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { faulty, notAllowed, notFound, refuse } from "../wire/problems.tsx";
import { makePicture } from "../work/pictures.ts";
import { readReport } from "../work/reports.ts";
import { refusalOf } from "./picture-refusals.ts";
import { refusalOfReport } from "./report-refusals.ts";
import { reportJson, testPhotoJson } from "./test-json.ts";
import { findTheTest, findWholeTest, testSheet, withdrawnBefore } from "./test-sheet.ts";

export const testFiles = new Hono<Env>();

const notYours =
  "Who added the test, the recipe's owner or a manager can put files with it. Put a test of your own on record instead.";

const reportBody = z.strictObject({
  report: z.instanceof(File, {
    error: "Choose the PDF. It is sent as the file “report” of a multipart form.",
  }),
  idempotencyKey,
});

testFiles.post(
  "/tests/:id/report",
  described({
    says: "Put a laboratory's report with a test: a multipart form with the file `report`, a PDF",
    body: reportBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const test = await findTheTest(c);
    if (!test) return notFound(c);
    if (!test.mayWithdraw) return notAllowed(c, notYours, testSheet(c, test));
    if (test.withdrawn) return withdrawnBefore(c, test);
    const read = await readBody(c, reportBody);
    if (read.kind === "refused")
      return faulty(c, read, testSheet(c, test, { faults: read.faults }));
    const file = readReport(new Uint8Array(await read.value.report.arrayBuffer()));
    if (file.kind !== "read") {
      const { status, title, says } = refusalOfReport(file);
      const errors = [{ path: "report", says }];
      const sheet = testSheet(c, test, { faults: errors });
      return refuse(c, { status, title, detail: says, errors }, sheet);
    }
    const { report } = file;
    const added = await addReport(c.var.db, { testId: test.id, report, ...actOf(c) });
    const { reports = [] } = (await findTheTest(c)) ?? {};
    const one = reports.find(({ sha256 }) => sha256 === report.sha256);
    const tell = added.kind === "added" ? created : changed;
    return tell(c, `/tests/${test.id}`, one && reportJson(test.id, one));
  },
);

testFiles.get(
  "/tests/:id/report/:sha256",
  described({ says: "A laboratory's report as it came, a PDF" }),
  readerRequired,
  async (c) => {
    const { id, sha256 } = c.req.param();
    const bytes = await findReport(c.var.db, { testId: id, sha256, reader: c.var.viewer });
    if (!bytes) return notFound(c);
    return c.body(new Uint8Array(bytes), 200, {
      "Content-Type": "application/pdf",
      "Content-Length": String(bytes.length),
      "Content-Disposition": `attachment; filename="report-${sha256.slice(0, 12)}.pdf"`,
      "X-Content-Type-Options": "nosniff",
      "Cache-Control": "private, immutable, max-age=31536000",
      ETag: `"${sha256}"`,
    });
  },
);

const photoBody = z.strictObject({
  photo: z.instanceof(File, {
    error: "Choose one picture. It is sent as the file “photo” of a multipart form.",
  }),
  taken: z.enum(["before", "after"]),
  alt: line(500, 0).default(""),
  idempotencyKey,
});

testFiles.post(
  "/tests/:id/photos",
  described({
    says: "Put a picture of the tile before or after a test: a multipart form with the file `photo`",
    body: photoBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const test = await findTheTest(c);
    if (!test) return notFound(c);
    if (!test.mayWithdraw) return notAllowed(c, notYours, testSheet(c, test));
    if (test.withdrawn) return withdrawnBefore(c, test);
    const read = await readBody(c, photoBody);
    if (read.kind === "refused") {
      const typed = { alt: String(read.typed.alt ?? ""), taken: String(read.typed.taken ?? "") };
      return faulty(c, read, testSheet(c, test, { faults: read.faults, typed }));
    }
    const { photo, taken, alt } = read.value;
    const made = await makePicture(new Uint8Array(await photo.arrayBuffer()));
    const added =
      made.kind === "made"
        ? await addTestPhoto(c.var.db, {
            testId: test.id,
            taken,
            alt,
            picture: made.picture,
            ...actOf(c),
          })
        : made;
    if (added.kind !== "added" && added.kind !== "there-already") {
      const { status, title, says } = refusalOf(added);
      const errors = [{ path: "photo", says }];
      const sheet = testSheet(c, test, { faults: errors, typed: { alt, taken } });
      return refuse(c, { status, title, detail: says, errors }, sheet);
    }
    const { photos = [] } = (await findWholeTest(c, test.id)) ?? {};
    const one = photos.find(({ id }) => id === added.id);
    const tell = added.kind === "added" ? created : changed;
    return tell(c, `/tests/${test.id}`, one && testPhotoJson(one));
  },
);
