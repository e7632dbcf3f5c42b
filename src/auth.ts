import { DrizzlePostgreSQLAdapter } from "@lucia-auth/adapter-drizzle";
import { parse } from "hono/utils/cookie";
import { type Adapter, Lucia, TimeSpan } from "lucia";
import type { Db } from "./db/client.ts";
import { sha256 } from "./db/digests.ts";
import { findSession, type Preferences } from "./db/preferences.ts";
import { prepared } from "./db/prepared.ts";
import { people, type Role, sessions } from "./db/schema/index.ts";

declare module "lucia" {
  interface Register {
    Lucia: ReturnType<typeof sessionsOf>;
    UserId: string;
    DatabaseUserAttributes: { name: string; role: Role; preferences: Preferences };
    DatabaseSessionAttributes: { startedAt: Date; browser: string };
  }
}

export type SignedIn = {
  person: { id: string; name: string; role: Role };
  /** How they want to read, found with the session. */
  preferences: Preferences;
  /** As it stands in the database: the SHA-256 of what the cookie holds. */
  sessionId: string;
  /** A `Set-Cookie` value to send where the session was prolonged. */
  cookie: string | undefined;
};

/** Sessions: this file alone knows which library keeps them. */
export type Auth = {
  /** Starts a session. @returns the `Set-Cookie` value. */
  start: (db: Db, session: { personId: string; browser: string; at: Date }) => Promise<string>;
  /** Who a `Cookie` header speaks for, or undefined where it speaks for nobody. */
  read: (db: Db, cookieHeader: string) => Promise<SignedIn | undefined>;
  /** A `Set-Cookie` value that takes the cookie away. */
  blankCookie: () => string;
};

/** @param secure whether cookies go over TLS only: true as soon as the studio is reached by https. */
export function openAuth(secure: boolean): Auth {
  const openFor = prepared((db) => sessionsOf(db, secure));
  return {
    async start(db, { personId, browser, at }) {
      const lucia = openFor(db);
      const session = await lucia.createSession(personId, {
        startedAt: at,
        browser: browser.slice(0, 200),
      });
      return lucia.createSessionCookie(session.id).serialize();
    },
    async read(db, cookieHeader) {
      const lucia = openFor(db);
      // The library reads every cookie, and breaks on another's that is not well encoded.
      const token = parse(cookieHeader, lucia.sessionCookieName)[lucia.sessionCookieName];
      if (!token) return undefined;
      const { session, user } = await lucia.validateSession(token);
      if (!session) return undefined;
      return {
        person: { id: user.id, name: user.name, role: user.role },
        preferences: user.preferences,
        sessionId: sha256(session.id),
        cookie: session.fresh ? lucia.createSessionCookie(session.id).serialize() : undefined,
      };
    },
    blankCookie: () =>
      new Lucia(noAdapter, cookieOptions(secure)).createBlankSessionCookie().serialize(),
  };
}

const cookieOptions = (secure: boolean) => ({
  sessionExpiresIn: new TimeSpan(30, "d"),
  sessionCookie: { name: "bucket_session", attributes: { secure, sameSite: "lax" as const } },
});

function sessionsOf(db: Db, secure: boolean) {
  return new Lucia(hashingIds(db, new DrizzlePostgreSQLAdapter(db, sessions, people)), {
    ...cookieOptions(secure),
    getUserAttributes: ({ name, role, preferences }) => ({ name, role, preferences }),
    getSessionAttributes: ({ startedAt, browser }) => ({ startedAt, browser }),
  });
}

/** Whoever reads the table cannot sign in with what stands there: only hashes are stored. */
function hashingIds(db: Db, adapter: Adapter): Adapter {
  return {
    async getSessionAndUser(token) {
      const found = await findSession(db, sha256(token));
      if (!found) return [null, null];
      const { person, preferences } = found;
      const { userId, expiresAt, startedAt, browser } = found.session;
      const { id, name, role } = person;
      return [
        { id: token, userId, expiresAt, attributes: { startedAt, browser } },
        { id, attributes: { name, role, preferences } },
      ];
    },
    getUserSessions: (userId) => adapter.getUserSessions(userId),
    setSession: (session) => adapter.setSession({ ...session, id: sha256(session.id) }),
    updateSessionExpiration: (token, expiresAt) =>
      adapter.updateSessionExpiration(sha256(token), expiresAt),
    deleteSession: (token) => adapter.deleteSession(sha256(token)),
    deleteUserSessions: (userId) => adapter.deleteUserSessions(userId),
    deleteExpiredSessions: () => adapter.deleteExpiredSessions(),
  };
}

/** Making a blank cookie asks for no session, so nothing stands behind this. */
const noAdapter: Adapter = {
  getSessionAndUser: async () => [null, null],
  getUserSessions: async () => [],
  setSession: async () => {},
  updateSessionExpiration: async () => {},
  deleteSession: async () => {},
  deleteUserSessions: async () => {},
  deleteExpiredSessions: async () => {},
};
