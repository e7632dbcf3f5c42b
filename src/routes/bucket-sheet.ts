import { BucketPage } from "../../views/buckets/page.tsx";
import type { FoundBucket } from "../db/buckets.ts";
import { type Ctx, memberOf } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { shownBucket } from "./bucket-json.ts";

/** The page of a bucket, with what was typed still in its forms. */
export const bucketSheet = (
  c: Ctx,
  bucket: FoundBucket,
  { faults, why }: { faults: readonly Fault[]; why: string } = { faults: [], why: "" },
) => ({
  page: { title: bucket.name, here: "buckets" as const },
  view: () =>
    BucketPage({
      bucket: shownBucket(bucket),
      mayKeep: memberOf(c).role === "manager",
      why,
      faults,
    }),
});
