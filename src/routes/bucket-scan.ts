import { Hono } from "hono";
import { StoppedPage } from "../../views/scan/stopped.tsx";
import { findBucketStop } from "../db/bucket-stops.ts";
import { findBucket } from "../db/buckets.ts";
import { answer } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { notFound, signInFirst } from "../wire/problems.tsx";
import { scanPath } from "./bucket-label.ts";
import { scanJson, scanOf, scanSheet } from "./bucket-scan-sheet.ts";

export const bucketScan = new Hono<Env>();

bucketScan.get(
  scanPath(":id"),
  described({
    says: "What the code on a bucket opens: whether it may be used, and how; that it may not be is said to anybody",
  }),
  async (c) => {
    const { db, viewer: reader, studio, now } = c.var;
    const id = c.req.param("id") ?? "";
    const mayRead = reader !== undefined || studio.showsPublic;
    const bucket = mayRead ? await findBucket(db, { id, reader, now }) : undefined;
    if (bucket) {
      const scan = await scanOf(c, bucket);
      return answer(c, { json: () => scanJson(scan), ...scanSheet(c, scan) });
    }
    const stop = await findBucketStop(db, id);
    if (stop?.stopped)
      return answer(c, {
        json: () => ({ bucket: { id }, mark: "do not use", because: [stoppedWords] }),
        page: { title: "Do not use this bucket", here: "none" },
        view: () => StoppedPage({ says: stoppedWords, next: reader ? null : scanPath(id) }),
      });
    return stop && !reader ? signInFirst(c) : notFound(c);
  },
);

const stoppedWords = "It is on hold or was recalled. Ask a manager of the studio.";
