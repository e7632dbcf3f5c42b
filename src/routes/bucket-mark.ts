import type { FoundBucket } from "../db/buckets.ts";
import { standsAs } from "./bucket-json.ts";

/** What stands on a bucket: the one thing that whoever dips has to know of it. */
export type Mark = "functional" | "decorative" | "test" | "do not use" | "empty";

/** Whether a bucket may be used and for what, in the fewest words. */
export function markOf({ is, forTest, mayUse, recalls, ...bucket }: FoundBucket): Mark {
  if (is === "empty" && recalls.length === 0) return "empty";
  const isStopped =
    recalls.length > 0 || bucket.standing.is === "withdrawn" || bucket.changes[0]?.is === "hold";
  if (forTest && !isStopped) return "test";
  if (mayUse.food) return "functional";
  return mayUse.decorative ? "decorative" : "do not use";
}

/** What speaks against it for somebody outside: no names, and nothing that people wrote. */
export function becauseForVisitors({ is, standing, recalls }: FoundBucket): string[] {
  return [
    ...(recalls.length > 0 ? ["It was recalled."] : []),
    ...(is === "hold" ? ["It is on hold."] : []),
    ...(standing.is === "approved" ? [] : [`Its revision ${standsAs[standing.is]}.`]),
  ];
}
