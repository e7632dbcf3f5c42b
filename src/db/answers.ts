import { and, eq, lt } from "drizzle-orm";
import type { Db } from "./client.ts";
import { answers } from "./schema/index.ts";

const day = 24 * 60 * 60 * 1000;

export type Taken =
  | { kind: "taken" }
  | { kind: "other-request" }
  | { kind: "answered"; status: number; headers: Record<string, string>; body: string | null };

/**
 * Takes a key for a request, in the transaction that will answer it; who comes second waits here
 * until the first is done.
 *
 * @param request the digest of method, path and body.
 */
export async function takeKey(
  tx: Db,
  { personId, key, request, at }: { personId: string; key: string; request: string; at: Date },
): Promise<Taken> {
  await tx
    .delete(answers)
    .where(and(eq(answers.personId, personId), lt(answers.at, new Date(at.getTime() - day))));
  const [taken] = await tx
    .insert(answers)
    .values({ personId, key, request, at })
    .onConflictDoNothing()
    .returning();
  if (taken) return { kind: "taken" };
  const [first] = await tx
    .select()
    .from(answers)
    .where(and(eq(answers.personId, personId), eq(answers.key, key)));
  if (!first || first.request !== request || first.status === null)
    return { kind: "other-request" };
  return {
    kind: "answered",
    status: first.status,
    headers: first.headers ?? {},
    body: first.body || null,
  };
}

export async function keepAnswer(
  tx: Db,
  {
    personId,
    key,
    ...answer
  }: {
    personId: string;
    key: string;
    status: number;
    headers: Record<string, string>;
    body: string;
  },
): Promise<void> {
  await tx
    .update(answers)
    .set(answer)
    .where(and(eq(answers.personId, personId), eq(answers.key, key)));
}

/** Gives a key back, for a request that created nothing. */
export async function freeKey(
  tx: Db,
  { personId, key }: { personId: string; key: string },
): Promise<void> {
  await tx.delete(answers).where(and(eq(answers.personId, personId), eq(answers.key, key)));
}
