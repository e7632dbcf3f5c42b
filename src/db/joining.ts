import { and, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { appendEvent } from "./events.ts";
import { openInvite } from "./invites.ts";
import { foldEmail, keyOfName } from "./people.ts";
import { invites, people, type Role } from "./schema/index.ts";

export type Joining =
  | { kind: "joined"; person: { id: string; name: string; role: Role } }
  | { kind: "spent" }
  | { kind: "taken"; field: "name" | "email" };

type Newcomer = { token: string; name: string; email: string; passwordHash: string; at: Date };

/**
 * Makes whoever holds a link a person of the studio, with the role that the link was made for. A
 * link works once, also where two people use it at the same moment.
 */
export async function joinStudio(db: Db, newcomer: Newcomer): Promise<Joining> {
  const { token, name, email, passwordHash, at } = newcomer;
  const id = uuidv7();
  const join = db.transaction(async (tx): Promise<Joining> => {
    // The invite names who used it, so the person comes first; a member until the invite is read.
    const [added] = await tx
      .insert(people)
      .values({
        id,
        name,
        nameKey: keyOfName(name),
        email,
        emailKey: foldEmail(email),
        passwordHash,
        role: "member",
        joinedAt: at,
      })
      .onConflictDoNothing()
      .returning({ id: people.id });
    if (!added) return { kind: "taken", field: await takenField(tx, email) };
    const [invite] = await tx
      .update(invites)
      .set({ usedBy: id, usedAt: at })
      .where(and(eq(invites.tokenHash, sha256(token)), openInvite(at)))
      .returning({ id: invites.id, role: invites.role });
    if (!invite) throw new Spent();
    const { role } = invite;
    await tx.update(people).set({ role }).where(eq(people.id, id));
    await appendEvent(
      tx,
      { by: id, at },
      { kind: "joined", subject: "person", subjectId: id, detail: { role, invite: invite.id } },
    );
    return { kind: "joined", person: { id, name, role } };
  });
  return join.catch((error) => {
    if (error instanceof Spent) return { kind: "spent" };
    throw error;
  });
}

/** Takes the person out again: only a throw ends a transaction with nothing written. */
class Spent extends Error {}

async function takenField(tx: Db, email: string): Promise<"name" | "email"> {
  const [holder] = await tx
    .select({ id: people.id })
    .from(people)
    .where(eq(people.emailKey, foldEmail(email)));
  return holder ? "email" : "name";
}
