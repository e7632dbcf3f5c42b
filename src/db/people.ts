import { and, asc, desc, eq, gt, isNotNull, isNull, ne, type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { revokeInvitesOf } from "./invites.ts";
import { foldName } from "./names.ts";
import { revokeRecoveriesBy } from "./recovery-ends.ts";
import { people, type Role } from "./schema/index.ts";

export { type Role, roles } from "./schema/index.ts";

export type Person = { id: string; name: string; role: Role; joinedAt: Date };

/** The form in which e-mail addresses are compared. */
export const foldEmail = (email: string): string => email.trim().normalize("NFC").toLowerCase();

/** The form in which people's names are compared; what cannot be seen makes no difference. */
export const keyOfName = (name: string): string => foldName(name.replace(/\p{Cf}/gu, ""));

/** Somebody who left is a row with a pseudonym: no longer a person of the studio. */
export const belongs: SQL = isNull(people.removedAt);

const shown = {
  id: people.id,
  name: people.name,
  role: people.role,
  joinedAt: people.joinedAt,
};

/** People of the studio by name, a hundred at a time; `next` is the cursor for `after`. */
export async function listPeople(
  db: Db,
  { after, limit = 100 }: { after?: string | undefined; limit?: number },
): Promise<{ items: Person[]; next: string | null }> {
  const rows = await db
    .select({ ...shown, nameKey: people.nameKey })
    .from(people)
    .where(and(belongs, after === undefined ? undefined : gt(people.nameKey, after)))
    .orderBy(asc(people.nameKey))
    .limit(limit + 1);
  const page = rows.slice(0, limit);
  const next = rows.length > limit ? (page.at(-1)?.nameKey ?? null) : null;
  return { items: page.map(({ nameKey: _, ...person }) => person), next };
}

/** The latest fifty who left, by their pseudonyms. */
export const listFormerPeople = (db: Db) =>
  db
    .select({
      id: people.id,
      name: people.name,
      removedAt: sql<Date>`${people.removedAt}`.mapWith(people.removedAt),
      why: sql<string>`${people.removedWhy}`,
    })
    .from(people)
    .where(isNotNull(people.removedAt))
    .orderBy(desc(people.removedAt), desc(people.id))
    .limit(50);

/** Somebody who belongs to the studio. */
export async function findPerson(db: Db, id: string): Promise<Person | undefined> {
  const [person] = await db
    .select(shown)
    .from(people)
    .where(and(eq(people.id, id), belongs));
  return person;
}

export type Credentials = Person & { email: string; passwordHash: string };

const credentials = {
  ...shown,
  email: sql<string>`${people.email}`,
  passwordHash: sql<string>`${people.passwordHash}`,
};

/** Who signs in with an e-mail address. */
export async function findByEmail(db: Db, email: string): Promise<Credentials | undefined> {
  const [person] = await db
    .select(credentials)
    .from(people)
    .where(and(eq(people.emailKey, foldEmail(email)), belongs));
  return person;
}

/** All that the studio knows of somebody, for themself. */
export async function findAccount(db: Db, id: string): Promise<Credentials | undefined> {
  const [person] = await db
    .select(credentials)
    .from(people)
    .where(and(eq(people.id, id), belongs));
  return person;
}

const managersLock = 7_263_403;

/**
 * Who is a manager changes one change at a time: two managers who demote or remove each other at
 * the same moment would otherwise leave none.
 */
export const holdManagers = (tx: Db) =>
  tx.execute(sql`select pg_advisory_xact_lock(${managersLock})`);

export type RoleChange =
  | { kind: "changed"; person: Person }
  | { kind: "no-person" }
  | { kind: "last-manager" };

/** Gives somebody another role. A studio keeps a manager; links made by one who was are ended. */
export async function changeRole(
  db: Db,
  { personId, role, by, at }: Act & { personId: string; role: Role },
): Promise<RoleChange> {
  return db.transaction(async (tx) => {
    await holdManagers(tx);
    const person = await findPerson(tx, personId);
    if (!person) return { kind: "no-person" };
    if (person.role === role) return { kind: "changed", person };
    if (person.role === "manager" && !(await hasOtherManager(tx, personId)))
      return { kind: "last-manager" };
    await tx.update(people).set({ role }).where(eq(people.id, personId));
    const invitesRevoked =
      person.role === "manager" ? await revokeInvitesOf(tx, { personId, at }) : 0;
    if (person.role === "manager") await revokeRecoveriesBy(tx, { personId, at });
    await appendEvent(
      tx,
      { by, at },
      {
        kind: "role changed",
        subject: "person",
        subjectId: personId,
        detail: { from: person.role, to: role, invitesRevoked },
      },
    );
    return { kind: "changed", person: { ...person, role } };
  });
}

async function hasOtherManager(tx: Db, personId: string): Promise<boolean> {
  const [other] = await tx
    .select({ id: people.id })
    .from(people)
    .where(and(eq(people.role, "manager"), belongs, ne(people.id, personId)))
    .limit(1);
  return other !== undefined;
}
