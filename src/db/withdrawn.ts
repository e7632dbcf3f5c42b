import { asc, inArray } from "drizzle-orm";
import type { Db } from "./client.ts";
import { withdrawals } from "./schema/index.ts";

/** Which of these recipes are withdrawn now: the newest word on each counts. */
export async function listWithdrawn(db: Db, recipeIds: readonly string[]): Promise<Set<string>> {
  if (recipeIds.length === 0) return new Set();
  const rows = await db
    .select({ recipeId: withdrawals.recipeId, withdrawn: withdrawals.withdrawn })
    .from(withdrawals)
    .where(inArray(withdrawals.recipeId, [...recipeIds]))
    .orderBy(asc(withdrawals.id));
  const newest = new Map(rows.map((row) => [row.recipeId, row.withdrawn]));
  return new Set([...newest].filter(([, withdrawn]) => withdrawn).map(([recipeId]) => recipeId));
}
