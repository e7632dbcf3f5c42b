import type { BucketUse } from "../db/bucket-uses.ts";
import type { FoundBucket } from "../db/buckets.ts";
import type { Ctx } from "../wire/context.ts";

/** Why nobody may tick that they use a bucket; undefined where they may. */
export function useRefused(bucket: FoundBucket): string | undefined {
  if (bucket.recalls.length > 0) return `It was recalled: nobody uses it. ${tellWhoUsedIt}`;
  if (bucket.is === "hold") return `It is on hold until a manager opens it. ${tellWhoUsedIt}`;
  if (bucket.is === "empty") return "It is empty: there is nothing in it to use.";
  return undefined;
}

const tellWhoUsedIt = "If you used it before, tell a manager.";

const day = 24 * 60 * 60 * 1000;

/** Whoever ticked it takes it back within a day; a manager at any time. */
export const mayUndoUse = ({ var: { viewer, now } }: Ctx, { by, at }: BucketUse): boolean =>
  viewer?.role === "manager" || (viewer?.id === by.id && now.getTime() - at.getTime() < day);
