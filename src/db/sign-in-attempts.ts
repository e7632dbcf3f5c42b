import { and, count, eq, gt, inArray, lt, min, or } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { foldEmail } from "./people.ts";
import { signInAttempts } from "./schema/index.ts";

/** Failures within `span` after which no password is looked at any more. */
export const mostFailures = { email: 10, address: 30 } as const;
const span = 15 * 60 * 1000;

export type Attempt = { ids: string[]; email: string };
export type Counted =
  | { kind: "counted"; attempt: Attempt }
  | { kind: "too-many"; againInSeconds: number };

/**
 * Counts an attempt as failed before the password is looked at, so that a hundred at the same
 * moment cannot all be looked at; `forgiveAttempt` takes it back where the password was right.
 * Neither the e-mail nor the address is stored, only its SHA-256.
 */
export async function countAttempt(
  db: Db,
  { email, address, at }: { email: string; address: string; at: Date },
): Promise<Counted> {
  const rows = [
    { id: uuidv7(), key: attemptKey("email", foldEmail(email)), at },
    { id: uuidv7(), key: attemptKey("address", address), at },
  ];
  const limits = [mostFailures.email, mostFailures.address];
  const ids = rows.map((row) => row.id);
  await db.insert(signInAttempts).values(rows);

  const keys = rows.map((row) => row.key);
  const counts = await db
    .select({ key: signInAttempts.key, failures: count(), oldest: min(signInAttempts.at) })
    .from(signInAttempts)
    .where(and(inArray(signInAttempts.key, keys), near(at)))
    .groupBy(signInAttempts.key);
  const over = counts.filter(({ key, failures }) => failures > (limits[keys.indexOf(key)] ?? 0));
  if (over.length === 0) return { kind: "counted", attempt: { ids, email } };

  // A refused attempt does not count, or whoever keeps trying would never be let in again.
  await db.delete(signInAttempts).where(inArray(signInAttempts.id, ids));
  const free = over.map(({ oldest }) => (oldest ?? at).getTime() + span);
  return {
    kind: "too-many",
    againInSeconds: Math.max(1, Math.ceil((Math.max(...free) - at.getTime()) / 1000)),
  };
}

/** The password was right: this attempt, all failures for the e-mail and all old ones are forgotten. */
export async function forgiveAttempt(db: Db, { ids, email }: Attempt, at: Date): Promise<void> {
  await db
    .delete(signInAttempts)
    .where(
      or(
        inArray(signInAttempts.id, ids),
        eq(signInAttempts.key, attemptKey("email", foldEmail(email))),
        lt(signInAttempts.at, since(at)),
      ),
    );
}

export const attemptKey = (kind: "email" | "address", value: string): string =>
  sha256(`${kind}:${value}`);

/** A clock that was set back leaves failures ahead of it, which would hold somebody up for longer. */
const near = (at: Date) =>
  and(gt(signInAttempts.at, since(at)), lt(signInAttempts.at, new Date(at.getTime() + span)));

const since = (at: Date): Date => new Date(at.getTime() - span);
