import { and, desc, eq, gt, lt, ne } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { belongs } from "./people.ts";
import { revokeRecoveriesOf } from "./recovery-ends.ts";
import { people, sessions } from "./schema/index.ts";

/**
 * Starts a session for somebody whose password was just found right, unless that password was
 * changed or the person removed in the meantime: either ends all sessions, and this one would slip
 * through.
 *
 * @param start makes the session in the transaction it is given and answers its cookie.
 */
export async function startSession(
  db: Db,
  { personId, passwordHash, at }: { personId: string; passwordHash: string; at: Date },
  start: (tx: Db) => Promise<string>,
): Promise<{ kind: "started"; cookie: string } | { kind: "changed-meanwhile" }> {
  return db.transaction(async (tx) => {
    // Nothing changes: the row is held, so that a removal or a new password waits or is seen.
    const [held] = await tx
      .update(people)
      .set({ passwordHash })
      .where(and(eq(people.id, personId), eq(people.passwordHash, passwordHash), belongs))
      .returning({ id: people.id });
    if (!held) return { kind: "changed-meanwhile" };
    await tx.delete(sessions).where(and(eq(sessions.userId, personId), lt(sessions.expiresAt, at)));
    return { kind: "started", cookie: await start(tx) };
  });
}

/** Signs a browser out. */
export async function endOwnSession(db: Db, sessionId: string): Promise<void> {
  await db.delete(sessions).where(eq(sessions.id, sessionId));
}

/** The browsers that somebody is signed in with, latest first. */
export const listSessions = (db: Db, { personId, at }: { personId: string; at: Date }) =>
  db
    .select({ id: sessions.id, startedAt: sessions.startedAt, browser: sessions.browser })
    .from(sessions)
    .where(and(eq(sessions.userId, personId), gt(sessions.expiresAt, at)))
    .orderBy(desc(sessions.startedAt), desc(sessions.id));

/** Ends one session of one's own. */
export async function endSession(
  db: Db,
  { sessionId, personId, at }: { sessionId: string; personId: string; at: Date },
): Promise<{ kind: "ended" } | { kind: "no-session" }> {
  return db.transaction(async (tx) => {
    const ended = await tx
      .delete(sessions)
      .where(and(eq(sessions.id, sessionId), eq(sessions.userId, personId)))
      .returning({ id: sessions.id });
    if (ended.length === 0) return { kind: "no-session" };
    await tellSessionsEnded(tx, { by: personId, at }, 1);
    return { kind: "ended" };
  });
}

/** Ends every session of one's own but the one that asks. @returns how many. */
export async function endOtherSessions(
  db: Db,
  { keep, personId, at }: { keep: string; personId: string; at: Date },
): Promise<number> {
  return db.transaction(async (tx) => {
    const ended = await deleteOthers(tx, { keep, personId });
    if (ended > 0) await tellSessionsEnded(tx, { by: personId, at }, ended);
    return ended;
  });
}

/**
 * Gives somebody a new password and ends every other session.
 *
 * @param from the stored hash that the current password was found right against: where it is no
 *   longer there, somebody changed it first.
 */
export async function changePassword(
  db: Db,
  {
    personId,
    from,
    to,
    keep,
    at,
  }: { personId: string; from: string; to: string; keep: string; at: Date },
): Promise<{ kind: "changed"; sessionsEnded: number } | { kind: "changed-meanwhile" }> {
  return db.transaction(async (tx) => {
    const [moved] = await tx
      .update(people)
      .set({ passwordHash: to })
      .where(and(eq(people.id, personId), eq(people.passwordHash, from), belongs))
      .returning({ id: people.id });
    if (!moved) return { kind: "changed-meanwhile" };
    const sessionsEnded = await deleteOthers(tx, { keep, personId });
    await revokeRecoveriesOf(tx, { personId, at });
    await appendEvent(
      tx,
      { by: personId, at },
      {
        kind: "password changed",
        subject: "person",
        subjectId: personId,
        detail: { sessionsEnded },
      },
    );
    return { kind: "changed", sessionsEnded };
  });
}

async function deleteOthers(tx: Db, { keep, personId }: { keep: string; personId: string }) {
  const ended = await tx
    .delete(sessions)
    .where(and(eq(sessions.userId, personId), ne(sessions.id, keep)))
    .returning({ id: sessions.id });
  return ended.length;
}

const tellSessionsEnded = (tx: Db, act: Act & { by: string }, sessionsEnded: number) =>
  appendEvent(tx, act, {
    kind: "sessions ended",
    subject: "person",
    subjectId: act.by,
    detail: { sessionsEnded },
  });
