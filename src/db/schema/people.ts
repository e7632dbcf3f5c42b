import { sql } from "drizzle-orm";
import { check, index, pgTable, text, uuid } from "drizzle-orm/pg-core";
import { id, isDigest, lengthIs, moment, oneOf, sortedText } from "./columns.ts";

export const roles = ["member", "reviewer", "manager"] as const;
export type Role = (typeof roles)[number];

/** Who belongs to the studio. Somebody who left keeps a row with a pseudonym and nothing else. */
export const people = pgTable(
  "people",
  {
    id: id(),
    name: text().notNull(),
    nameKey: sortedText().notNull().unique("people_name_unique"),
    email: text(),
    emailKey: sortedText().unique("people_email_unique"),
    passwordHash: text(),
    role: text({ enum: roles }).notNull(),
    joinedAt: moment().notNull(),
    removedAt: moment(),
    removedBy: uuid(),
    removedWhy: text(),
  },
  (person) => [
    check("people_name_length", lengthIs(person.name, 1, 80)),
    check("people_email_length", lengthIs(person.email, 3, 254)),
    check("people_role_known", oneOf(person.role, roles)),
    check(
      "people_signs_in_or_is_removed",
      sql`(${person.removedAt} is null) = (${person.email} is not null and ${person.passwordHash} is not null)`,
    ),
  ],
);

/** A signed-in browser. The id is the SHA-256 of what the cookie holds. */
export const sessions = pgTable(
  "sessions",
  {
    id: text().primaryKey(),
    userId: uuid()
      .notNull()
      .references(() => people.id),
    expiresAt: moment().notNull(),
    startedAt: moment().notNull(),
    browser: text().notNull(),
  },
  (session) => [
    index("sessions_of_person").on(session.userId),
    check("sessions_id_hashed", isDigest(session.id)),
    check("sessions_browser_length", lengthIs(session.browser, 0, 200)),
  ],
);

/** A one-time link to join. Only the SHA-256 of its token is kept. */
export const invites = pgTable(
  "invites",
  {
    id: id(),
    tokenHash: text().notNull().unique("invites_token_unique"),
    role: text({ enum: roles }).notNull(),
    madeBy: uuid().references(() => people.id),
    madeAt: moment().notNull(),
    expiresAt: moment().notNull(),
    usedBy: uuid().references(() => people.id),
    usedAt: moment(),
    revokedAt: moment(),
  },
  (invite) => [
    check("invites_token_hashed", isDigest(invite.tokenHash)),
    check("invites_role_known", oneOf(invite.role, roles)),
    check("invites_used_by_somebody", sql`(${invite.usedAt} is null) = (${invite.usedBy} is null)`),
  ],
);

/** A one-time link by which somebody sets a new password, made by a manager. Only its token's hash is kept. */
export const recoveries = pgTable(
  "recoveries",
  {
    id: id(),
    personId: uuid()
      .notNull()
      .references(() => people.id),
    tokenHash: text().notNull().unique("recoveries_token_unique"),
    /** Null where the program itself made it, from the machine that it runs on. */
    madeBy: uuid().references(() => people.id),
    madeAt: moment().notNull(),
    expiresAt: moment().notNull(),
    usedAt: moment(),
    revokedAt: moment(),
  },
  (recovery) => [
    index("recoveries_of_person").on(recovery.personId),
    check("recoveries_token_hashed", isDigest(recovery.tokenHash)),
  ],
);

/** Failed sign-ins of late, by e-mail and by address, so that all instances count together. */
export const signInAttempts = pgTable(
  "sign_in_attempts",
  { id: id(), key: text().notNull(), at: moment().notNull() },
  (attempt) => [
    index("sign_in_attempts_of_key").on(attempt.key, attempt.at),
    check("sign_in_attempts_key_hashed", isDigest(attempt.key)),
  ],
);
