import { randomBytes } from "node:crypto";
import { and, desc, eq, gt, isNull } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { type Act, appendEvent } from "./events.ts";
import { invites, people, type Role } from "./schema/index.ts";

const week = 7 * 24 * 60 * 60 * 1000;

export type Invite = { id: string; role: Role; path: string; expiresAt: Date };

/**
 * A one-time link to join with a role, good for a week.
 *
 * @returns with the path of the link. Its token is nowhere else: only its hash is stored.
 */
export async function makeInvite(db: Db, { role, by, at }: Act & { role: Role }): Promise<Invite> {
  const token = randomBytes(24).toString("base64url");
  const id = uuidv7();
  const expiresAt = new Date(at.getTime() + week);
  await db.transaction(async (tx) => {
    await tx.insert(invites).values({
      id,
      tokenHash: sha256(token),
      role,
      madeBy: by,
      madeAt: at,
      expiresAt,
    });
    await appendEvent(
      tx,
      { by, at },
      { kind: "invited", subject: "invite", subjectId: id, detail: { role } },
    );
  });
  return { id, role, path: `/people/new?invite=${token}`, expiresAt };
}

/** Where nobody belongs to the studio yet: a fresh link for its first manager, earlier ones ended. */
export async function offerFirstInvite(db: Db, at: Date): Promise<string | undefined> {
  const [somebody] = await db.select({ id: people.id }).from(people).limit(1);
  if (somebody) return undefined;
  await db.update(invites).set({ revokedAt: at }).where(isNull(invites.revokedAt));
  const { path } = await makeInvite(db, { role: "manager", by: null, at });
  return path;
}

/** An invite that can still be used. */
export const openInvite = (at: Date) =>
  and(isNull(invites.usedAt), isNull(invites.revokedAt), gt(invites.expiresAt, at));

/** The role that a link's token lets somebody join with, or undefined where it is spent or unknown. */
export async function findInvite(db: Db, { token, at }: { token: string; at: Date }) {
  const [invite] = await db
    .select({ id: invites.id, role: invites.role })
    .from(invites)
    .where(and(eq(invites.tokenHash, sha256(token)), openInvite(at)));
  return invite;
}

/** Links that somebody could still join by, newest first. */
export const listOpenInvites = (db: Db, at: Date) =>
  db
    .select({
      id: invites.id,
      role: invites.role,
      madeBy: people.name,
      madeAt: invites.madeAt,
      expiresAt: invites.expiresAt,
    })
    .from(invites)
    .leftJoin(people, eq(people.id, invites.madeBy))
    .where(openInvite(at))
    .orderBy(desc(invites.id));

/** Ends a link before anybody joined by it. */
export async function revokeInvite(
  db: Db,
  { inviteId, by, at }: Act & { inviteId: string },
): Promise<{ kind: "revoked" } | { kind: "no-invite" }> {
  return db.transaction(async (tx) => {
    const [revoked] = await tx
      .update(invites)
      .set({ revokedAt: at })
      .where(and(eq(invites.id, inviteId), openInvite(at)))
      .returning({ id: invites.id });
    if (!revoked) return { kind: "no-invite" };
    await appendEvent(
      tx,
      { by, at },
      { kind: "invite revoked", subject: "invite", subjectId: revoked.id },
    );
    return { kind: "revoked" };
  });
}

/** Ends what links somebody made and nobody used: a manager who is one no longer leaves no key behind. */
export async function revokeInvitesOf(
  tx: Db,
  { personId, at }: { personId: string; at: Date },
): Promise<number> {
  const revoked = await tx
    .update(invites)
    .set({ revokedAt: at })
    .where(and(eq(invites.madeBy, personId), openInvite(at)))
    .returning({ id: invites.id });
  return revoked.length;
}
