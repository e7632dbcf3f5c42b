import { randomBytes } from "node:crypto";
import { and, desc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { type Act, appendEvent } from "./events.ts";
import { belongs, findByEmail, findPerson } from "./people.ts";
import { openRecovery, revokeRecoveriesOf } from "./recovery-ends.ts";
import { people, recoveries, sessions } from "./schema/index.ts";

const day = 24 * 60 * 60 * 1000;

export type Recovery = { id: string; path: string; expiresAt: Date };

/**
 * A one-time link by which somebody sets a new password, good for a day.
 *
 * @param by the manager who makes it, or null for the program itself, at the machine it runs on.
 * @returns with the path of the link. Its token is nowhere else: only its hash is stored.
 */
export async function makeRecovery(
  db: Db,
  { personId, by, at }: Act & { personId: string },
): Promise<({ kind: "made" } & Recovery) | { kind: "no-person" }> {
  const token = randomBytes(24).toString("base64url");
  const id = uuidv7();
  const expiresAt = new Date(at.getTime() + day);
  return db.transaction(async (tx) => {
    if (!(await findPerson(tx, personId))) return { kind: "no-person" };
    const tokenHash = sha256(token);
    await tx
      .insert(recoveries)
      .values({ id, personId, tokenHash, madeBy: by, madeAt: at, expiresAt });
    await appendEvent(
      tx,
      { by, at },
      { kind: "recovery made", subject: "person", subjectId: personId, detail: { recovery: id } },
    );
    return { kind: "made", id, path: `/recovery/${token}`, expiresAt };
  });
}

/** A link for whoever signs in with an e-mail, made by the program itself. */
export async function offerRecovery(
  db: Db,
  { email, at }: { email: string; at: Date },
): Promise<{ kind: "offered"; name: string; path: string } | { kind: "no-person" }> {
  const person = await findByEmail(db, email);
  if (!person) return { kind: "no-person" };
  const made = await makeRecovery(db, { personId: person.id, by: null, at });
  if (made.kind === "no-person") return made;
  return { kind: "offered", name: person.name, path: made.path };
}

/** Who a link's token lets set a new password, or undefined where it is spent or unknown. */
export async function findRecovery(db: Db, { token, at }: { token: string; at: Date }) {
  const [found] = await db
    .select({ id: recoveries.id, personId: people.id, name: people.name, email: people.email })
    .from(recoveries)
    .innerJoin(people, eq(people.id, recoveries.personId))
    .where(and(eq(recoveries.tokenHash, sha256(token)), openRecovery(at), belongs));
  return found;
}

/** Links by which somebody could still set a password, newest first. */
export const listOpenRecoveries = (db: Db, { personId, at }: { personId: string; at: Date }) =>
  db
    .select({
      id: recoveries.id,
      madeBy: people.name,
      madeAt: recoveries.madeAt,
      expiresAt: recoveries.expiresAt,
    })
    .from(recoveries)
    .leftJoin(people, eq(people.id, recoveries.madeBy))
    .where(and(eq(recoveries.personId, personId), openRecovery(at)))
    .orderBy(desc(recoveries.id));

/**
 * Sets the new password of whoever a link is for: the link is used up, their other links and all
 * their sessions end. A link works once, also where two use it at the same moment.
 */
export async function useRecovery(
  db: Db,
  { token, passwordHash, at }: { token: string; passwordHash: string; at: Date },
): Promise<{ kind: "set"; personId: string; sessionsEnded: number } | { kind: "spent" }> {
  return db.transaction(async (tx) => {
    const [used] = await tx
      .update(recoveries)
      .set({ usedAt: at })
      .where(and(eq(recoveries.tokenHash, sha256(token)), openRecovery(at)))
      .returning({ id: recoveries.id, personId: recoveries.personId });
    if (!used) return { kind: "spent" };
    const { personId } = used;
    const [person] = await tx
      .update(people)
      .set({ passwordHash })
      .where(and(eq(people.id, personId), belongs))
      .returning({ id: people.id });
    // Removed meanwhile: the link stays used up, there is nobody to set a password for.
    if (!person) return { kind: "spent" };
    await revokeRecoveriesOf(tx, { personId, at });
    const ended = await tx
      .delete(sessions)
      .where(eq(sessions.userId, personId))
      .returning({ id: sessions.id });
    const sessionsEnded = ended.length;
    await appendEvent(
      tx,
      { by: personId, at },
      {
        kind: "recovery used",
        subject: "person",
        subjectId: personId,
        detail: { recovery: used.id, sessionsEnded },
      },
    );
    return { kind: "set", personId, sessionsEnded };
  });
}

/** Ends a link before anybody used it. */
export async function revokeRecovery(
  db: Db,
  { recoveryId, by, at }: Act & { recoveryId: string },
): Promise<{ kind: "revoked"; personId: string } | { kind: "no-recovery" }> {
  return db.transaction(async (tx) => {
    const [revoked] = await tx
      .update(recoveries)
      .set({ revokedAt: at })
      .where(and(eq(recoveries.id, recoveryId), openRecovery(at)))
      .returning({ personId: recoveries.personId });
    if (!revoked) return { kind: "no-recovery" };
    const { personId } = revoked;
    await appendEvent(
      tx,
      { by, at },
      {
        kind: "recovery ended",
        subject: "person",
        subjectId: personId,
        detail: { recovery: recoveryId },
      },
    );
    return { kind: "revoked", personId };
  });
}
