import { randomBytes } from "node:crypto";
import { and, desc, eq, gt, isNull } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { type Act, appendEvent } from "./events.ts";
import { invites, people, type Role } from "./schema/index.ts";

const week = 7 * 24 * 60 * 60 * 1000;

/**
 * A one-time link to join with a role, good for a week.
 *
 * @returns the path of the link. Its token is nowhere else: only its hash is stored.
 */
export async function makeInvite(db: Db, { role, by, at }: Act & { role: Role }): Promise<string> {
  const token = randomBytes(24).toString("base64url");
  const id = uuidv7();
  await db.transaction(async (tx) => {
    await tx.insert(invites).values({
      id,
      tokenHash: sha256(token),
      role,
      madeBy: by,
      madeAt: at,
      expiresAt: new Date(at.getTime() + week),
    });
    await appendEvent(
      tx,
      { by, at },
      { kind: "invited", subject: "invite", subjectId: id, detail: { role } },
    );
  });
  return `/people/new?invite=${token}`;
}

/** Where nobody belongs to the studio yet: a fresh link for its first manager, earlier ones ended. */
export async function offerFirstInvite(db: Db, at: Date): Promise<string | undefined> {
  const [somebody] = await db.select({ id: people.id }).from(people).limit(1);
  if (somebody) return undefined;
  await db.update(invites).set({ revokedAt: at }).where(isNull(invites.revokedAt));
  return makeInvite(db, { role: "manager", by: null, at });
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
      madeAt: invites.madeAt,
      expiresAt: invites.expiresAt,
    })
    .from(invites)
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
      { kind: "invite revoked", subject: "invite", subjectId: inviteId },
    );
    return { kind: "revoked" };
  });
}
